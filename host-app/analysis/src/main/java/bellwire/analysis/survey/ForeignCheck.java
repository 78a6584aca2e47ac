package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Look;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Looks for voltage on the cable with every relay open, theory (18). Where a port may be live, the
 * test load tells whether something drives it or a neighbouring mains cable only induces it, and a
 * look from the loudest port to each other one tells between which two it stands: conductors that
 * the cable's capacitance takes along stand between those two.
 */
public final class ForeignCheck implements Phase {
  /**
   * An induced voltage above this is told, whatever the interlock says: 1 V peak, the interlock's
   * window. Below it, it is what every mains cable in a wall does to a conductor, and harmless.
   */
  public static final double INDUCED_VOLTS = 0.7;

  /** Driven DC and AC that a survey's readings would take in. */
  public static final double DRIVEN_DC_VOLTS = 0.05;

  public static final double DRIVEN_AC_VOLTS = 0.2;

  /**
   * A port's voltage against common, or the spread of the ports' DC, that asks for a second look.
   */
  private static final double SUSPECT_VOLTS = 0.1;

  private static final double SUSPECT_SPREAD_VOLTS = 0.05;

  /** Under the test load, where 22 pF to 230 V, 50 Hz leaves 1.6 µA · 22 kohm = 35 mV. */
  private static final double HELD_VOLTS = 0.08;

  private static final double HELD_SPREAD_VOLTS = 0.04;

  /** From half of an induced voltage on, as it may stand on two ports in opposition. */
  private static final double INDUCED_SHARE = 0.4;

  /** 20 ms at 400 a second: one cycle of 50 Hz, 1.2 of 60 Hz; enough to see that there is one. */
  private static final int GLANCE = 8;

  /** Half-cycles of both mains frequencies, to compare by. */
  private static final int COMPARE = 20;

  /** Whole cycles of both, to measure by. */
  private static final int MEASURE = 40;

  /** What the converter's window of a 400th of a second leaves of 50 and 60 Hz: 0.974 and 0.963. */
  private static final double WAVE_SHARE = 0.968;

  /** Ports whose voltages differ by less, as a share of the whole, are joined. */
  private static final double ALIKE_SHARE = 0.03;

  private enum Stage {
    GLANCE,
    LOAD,
    COMPARE,
    MEASURE,
    OVER
  }

  private final BoardModel board;
  private final double inducedVolts;
  private final double[] bareVolts = new double[Ports.COUNT];
  private final List<Integer> alike = new ArrayList<>();
  private Stage stage = Stage.GLANCE;
  private boolean held;
  private int first;
  private int second = -1;
  private @Nullable Foreign found;

  /**
   * @param suspicious whether the interlock has tripped: then what usually counts as every mains
   *     cable's doing is told, too
   */
  public ForeignCheck(BoardModel board, boolean suspicious) {
    this.board = board;
    inducedVolts = suspicious ? SUSPECT_VOLTS : INDUCED_VOLTS;
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    switch (stage) {
      case GLANCE, LOAD -> {
        for (int port = 0; port < Ports.COUNT; port++) {
          probes.add(Probe.monitor(Look.monitor(port), GLANCE, stage == Stage.LOAD));
        }
      }
      case COMPARE -> {
        for (int port : others()) {
          probes.add(Probe.monitor(Look.monitorPair(first, port), COMPARE, held));
        }
      }
      case MEASURE -> {
        Look look = second < 0 ? Look.monitor(first) : Look.monitorPair(first, second);
        probes.add(Probe.monitor(look, MEASURE, false));
        probes.add(Probe.monitor(look, MEASURE, true));
      }
      case OVER -> {}
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    switch (stage) {
      case GLANCE -> glance(readings);
      case LOAD -> underLoad(readings);
      case COMPARE -> compare(readings);
      case MEASURE -> measure(readings);
      case OVER -> throw new IllegalStateException("stage=" + stage);
    }
  }

  private void glance(List<Reading> readings) {
    for (int port = 0; port < Ports.COUNT; port++) {
      bareVolts[port] = rms(readings.get(port));
    }
    stage =
        loudest(bareVolts) > SUSPECT_VOLTS || spread(readings) > SUSPECT_SPREAD_VOLTS
            ? Stage.LOAD
            : Stage.OVER;
  }

  private void underLoad(List<Reading> readings) {
    double[] loaded = readings.stream().mapToDouble(this::rms).toArray();
    held = loudest(loaded) > HELD_VOLTS || spread(readings) > HELD_SPREAD_VOLTS;
    double[] telling = held ? loaded : bareVolts;
    if (!held && loudest(bareVolts) < INDUCED_SHARE * inducedVolts) {
      stage = Stage.OVER; // what every mains cable in the wall does to a conductor
      return;
    }
    for (int port = 1; port < Ports.COUNT; port++) {
      first = telling[port] > telling[first] ? port : first;
    }
    stage = Stage.COMPARE;
  }

  private void compare(List<Reading> readings) {
    double[] volts = readings.stream().mapToDouble(this::rms).toArray();
    double most = loudest(volts);
    List<Integer> others = others();
    for (int k = 0; k < volts.length; k++) {
      if (volts[k] == most) {
        second = others.get(k);
      }
    }
    if (!held && bareVolts[second] < 0.4 * bareVolts[first]) {
      second = -1;
    } else {
      for (int k = 0; k < volts.length; k++) {
        int port = others.get(k);
        boolean near = volts[k] < ALIKE_SHARE * most || volts[k] > (1 - ALIKE_SHARE) * most;
        if (held && port != second && near) {
          alike.add(port);
        }
      }
    }
    stage = Stage.MEASURE;
  }

  private void measure(List<Reading> readings) {
    Reading bare = readings.get(0);
    boolean alternating = bare.scatterVolts() > Math.abs(bare.volts());
    boolean turn = !alternating && second >= 0 && bare.volts() < 0;
    Foreign seen =
        new Foreign(
            turn ? second : first,
            turn ? first : second,
            rms(bare),
            rms(readings.get(1)),
            alternating,
            alike);
    double driven = alternating ? DRIVEN_AC_VOLTS : DRIVEN_DC_VOLTS;
    found = seen.volts() > (seen.driven() ? driven : inducedVolts) ? seen : null;
    stage = Stage.OVER;
  }

  private List<Integer> others() {
    List<Integer> others = Ports.list(Ports.ALL);
    others.remove(Integer.valueOf(first));
    return others;
  }

  private static double loudest(double[] volts) {
    double most = 0;
    for (double v : volts) {
      most = Math.max(most, v);
    }
    return most;
  }

  /** Greatest difference of two ports' mean voltages. */
  private double spread(List<Reading> readings) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Reading reading : readings) {
      low = Math.min(low, reading.volts());
      high = Math.max(high, reading.volts());
    }
    return (high - low) * board.monitorRatio();
  }

  private double rms(Reading reading) {
    int n = reading.probe().repeats();
    double wave = reading.scatterVolts() * Math.sqrt((n - 1.0) / n) / WAVE_SHARE;
    return Math.hypot(reading.volts(), wave) * board.monitorRatio();
  }

  /** The voltage found; null when there is none. */
  public @Nullable Foreign foreign() {
    return found;
  }
}
