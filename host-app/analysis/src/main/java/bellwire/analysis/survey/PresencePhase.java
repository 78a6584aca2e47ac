package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;

/**
 * Finds which ports have copper on them: each is charged through the high check resistor with all
 * others held at common. An empty port has only its stray capacitance and is up at once; a
 * conductor's capacitance to its fellows makes it late, a short or leakage keeps it down. Theory
 * (8).
 */
public final class PresencePhase implements Phase {
  /** The shortest delay there is: the converter's window begins 156 µs after it. */
  private static final int EARLY_MICROS = 3;

  private static final int LATE_MICROS = 16_000;

  /**
   * An empty port reads the same early and late, to less than this share (stray capacitance 10 to
   * 20 pF). Copper makes it late, or brings hum that moves the two looks apart either way.
   */
  private static final double EMPTY_BAND = 0.01;

  /** Of the full voltage, in the late look. */
  private static final double JOINED_SHARE = 0.2;

  private static final double SLOW_SHARE = 0.4;

  /** Hum may by chance make one round look empty. */
  private static final int ROUNDS = 3;

  private final BoardModel board;
  private final int candidates;
  private int present;
  private int joined;
  private int slow;
  private boolean over;

  /**
   * @param candidates mask of the ports to look at
   */
  public PresencePhase(BoardModel board, int candidates) {
    this.board = board;
    this.candidates = candidates;
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (over) {
      return probes;
    }
    for (int port : looks()) {
      Look look = Look.terminal(port);
      Probe discharge =
          new Probe(0, 0, Ports.ALL, false, End.NONE, look, 8, Pace.INSTANT, 250, 1, false);
      int bit = Ports.bit(port);
      probes.add(discharge);
      probes.add(
          new Probe(
              0,
              bit,
              Ports.ALL & ~bit,
              true,
              End.CHECK_HIGH,
              look,
              8,
              Pace.INSTANT,
              EARLY_MICROS,
              1,
              false));
      probes.add(discharge);
      probes.add(
          new Probe(
              0,
              bit,
              Ports.ALL & ~bit,
              true,
              End.CHECK_HIGH,
              look,
              8,
              Pace.INSTANT,
              LATE_MICROS,
              1,
              false));
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    double feed = board.dividerOhms() / (board.dividerOhms() + board.checkHighOhms());
    double full = board.excitationVolts() * feed;
    int k = 0;
    for (int port : looks()) {
      double early = readings.get(k + 1).volts();
      double late = readings.get(k + 3).volts();
      k += 4;
      boolean heldDown = late < 0.85 * full;
      joined |= late < JOINED_SHARE * full ? Ports.bit(port) : 0;
      slow |= late < SLOW_SHARE * full ? Ports.bit(port) : 0;
      if (heldDown || Math.abs(early / late - 1) > EMPTY_BAND) {
        present |= Ports.bit(port);
      }
    }
    over = true;
  }

  private List<Integer> looks() {
    List<Integer> ports = new ArrayList<>();
    for (int round = 0; round < ROUNDS; round++) {
      ports.addAll(Ports.list(candidates));
    }
    return ports;
  }

  /**
   * Mask of the ports that something joins to others by less than some 200 kohm, or by more than
   * some 0.09 µF.
   */
  public int joined() {
    return joined;
  }

  /** Mask of the ports that hardly came up: by a leakage, or by more than some 35 nF. */
  public int slow() {
    return slow;
  }

  /** Mask of the ports that have copper on them. */
  public int present() {
    return present;
  }
}
