package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * One port against all the others together: the quickest way to know that a port touches nothing. A
 * coarse round finds the range for each port; a fine one measures it. Theory (16).
 */
public final class RestPhase implements Phase {
  private static final int REPEATS = 3;

  /** Of a port that overloads every range: nothing can be said. */
  private static final Leak UNREAD = new Leak(0, 1);

  /** Median of the standard deviation of three readings, over the true one: root of ln 2. */
  private static final double MEDIAN_SCATTER = Math.sqrt(Math.log(2));

  private final BoardModel board;
  private final CurrentReader reader;
  private final List<Integer> ports;
  private final int mask;
  private final double[] coarseOhms = new double[Ports.COUNT];
  private final double[] expectedOhms = new double[Ports.COUNT];
  private final Leak[] leaks = new Leak[Ports.COUNT];
  private final End[] ends = new End[Ports.COUNT];
  private List<Integer> pending = List.of();
  private boolean coarse = true;
  private final List<Double> noise = new ArrayList<>();

  /**
   * @param present mask of the ports with copper on them, M among them if it is clipped
   */
  public RestPhase(BoardModel board, int present) {
    this.board = board;
    reader = new CurrentReader(board);
    ports = Ports.list(present);
    mask = present;
    Arrays.fill(coarseOhms, Double.POSITIVE_INFINITY);
    Arrays.fill(leaks, UNREAD);
  }

  /** The probes of a coarse round: two quick readings a port, also the watch for a plug. */
  static List<Probe> coarseRound(List<Integer> ports, int mask) {
    List<Probe> probes = new ArrayList<>();
    ports.forEach(port -> probes.addAll(coarseLook(Ports.bit(port), mask)));
    return probes;
  }

  /** Two quick readings of some ports, driven as one, against the others of a mask. */
  static List<Probe> coarseLook(int drive, int mask) {
    Probe current =
        new Probe(
            drive,
            mask & ~drive,
            Ports.ALL & ~mask,
            true,
            End.LOW,
            Look.REFERENCE,
            4,
            Pace.QUICK,
            250,
            1,
            false);
    int first = Integer.numberOfTrailingZeros(drive);
    return List.of(current, current.looking(Look.terminal(first), 1));
  }

  /** Resistance from each port to all others as a coarse round reads it; bounded by 1 Gohm. */
  static double[] coarseOhms(BoardModel board, List<Integer> ports, List<Reading> readings) {
    double[] ohms = new double[Ports.COUNT];
    Arrays.fill(ohms, Double.POSITIVE_INFINITY);
    for (int k = 0; k < ports.size(); k++) {
      ohms[ports.get(k)] = coarseOhms(board, readings.subList(2 * k, 2 * k + 2), ports.size() - 1);
    }
    return ohms;
  }

  /**
   * What a {@link #coarseLook} read.
   *
   * @param returned number of ports on the return bus
   */
  static double coarseOhms(BoardModel board, List<Reading> look, int returned) {
    double amps = look.get(0).volts() / board.lowReferenceOhms();
    double returnOhms = board.lowReferenceOhms() + board.pathOhms() / Math.max(1, returned);
    return amps <= 1e-9 ? 1e9 : Math.max(0, look.get(1).volts() / amps - returnOhms);
  }

  @Override
  public List<Probe> next() {
    if (ports.size() < 2) {
      return List.of();
    }
    if (coarse) {
      return coarseRound(ports, mask);
    }
    List<Probe> probes = new ArrayList<>();
    for (int port : pending) {
      int bit = Ports.bit(port);
      Probe on =
          reader.excited(
              bit, mask & ~bit, Ports.ALL & ~mask, 1 / expectedOhms[port], ends[port], REPEATS);
      probes.add(on);
      probes.add(CurrentReader.voltage(on));
      probes.add(on.silent());
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    if (coarse) {
      double[] seen = coarseOhms(board, ports, readings);
      for (int port : ports) {
        coarseOhms[port] = Math.max(seen[port], 0.01);
        expectedOhms[port] = coarseOhms[port];
        ends[port] = reader.endFor(1 / coarseOhms[port]);
      }
      coarse = false;
      pending = ports;
      return;
    }
    gatherNoise(readings);
    List<Integer> again = new ArrayList<>();
    for (int k = 0; k < pending.size(); k++) {
      int port = pending.get(k);
      CurrentReader.Measured measured =
          reader.measured(
              readings.get(3 * k),
              readings.get(3 * k + 1),
              readings.get(3 * k + 2),
              scatter(readings, ends[port]));
      if (measured == null) {
        if (ends[port] != End.LOW) {
          ends[port] = ends[port] == End.HIGH ? End.MID : End.LOW;
          expectedOhms[port] = Math.min(expectedOhms[port], ends[port] == End.MID ? 1e5 : 100);
          again.add(port);
        }
      } else {
        double across = measured.volts() - measured.amps() * returnOhms(ends[port]);
        leaks[port] = new Leak(measured.amps() / across, measured.u() / Math.abs(across));
      }
    }
    pending = again;
  }

  private static double scatter(List<Reading> readings, End end) {
    return CurrentReader.pooledScatter(
        readings.stream().filter(r -> r.probe().end() == end).toList());
  }

  private double returnOhms(End end) {
    double bus = end == End.LOW ? board.lowReferenceOhms() : 0;
    return bus + board.pathOhms() / Math.max(1, ports.size() - 1);
  }

  /** Resistance to all the others, rough, for choosing ranges and for recognising a plug. */
  public double[] coarse() {
    return coarseOhms.clone();
  }

  private void gatherNoise(List<Reading> readings) {
    for (Reading reading : readings) {
      if (!Double.isNaN(reading.scatterVolts()) && !reading.overloaded()) {
        noise.add(
            reading.scatterVolts()
                / board.noise().rms(reading.probe().gain(), reading.probe().pace()));
      }
    }
  }

  /**
   * The converter's noise as the repeats showed it, over what the board's description says; at
   * least 1. From the median, so that hum on a few ports does not count as noise.
   */
  public double noiseFactor() {
    if (noise.isEmpty()) {
      return 1;
    }
    double[] sorted = noise.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    return Math.max(1, sorted[sorted.length / 2] / MEDIAN_SCATTER);
  }

  /** Conductance from a port to all the others together. */
  public Leak leak(int port) {
    return leaks[port];
  }
}
