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
  private static final int EARLY_MICROS = 50;
  private static final int LATE_MICROS = 16_000;
  private static final double WINDOW_SECONDS = 250e-6;

  /**
   * An empty port reads the same early and late, to less than this share (stray capacitance 10 to
   * 20 pF). Copper makes it late, or brings hum that moves the two looks apart either way.
   */
  private static final double EMPTY_BAND = 0.01;

  /** Hum may by chance make one round look empty. */
  private static final int ROUNDS = 3;

  private final BoardModel board;
  private final int candidates;
  private final double[] farads = new double[Ports.COUNT];
  private int present;
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
    double source = board.checkHighOhms() * feed;
    int k = 0;
    for (int port : looks()) {
      double early = readings.get(k + 1).volts();
      double late = readings.get(k + 3).volts();
      k += 4;
      boolean heldDown = late < 0.85 * full;
      double share = early / Math.max(late, 0.1 * full);
      if (heldDown || Math.abs(share - 1) > EMPTY_BAND) {
        present |= Ports.bit(port);
      }
      farads[port] = port == Ports.METAL || heldDown ? Double.NaN : timeConstant(share) / source;
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

  /** Mask of the ports that have copper on them. */
  public int present() {
    return present;
  }

  /**
   * Rough capacitance of a port's conductor to all others, stray included; NaN where a leakage
   * hides it.
   */
  public double farads(int port) {
    return farads[port];
  }

  /** Inverts the mean of 1 − exp(−t/τ) over the converter's window by bisection. */
  private static double timeConstant(double share) {
    double start = 54.7e-6;
    double low = 1e-6;
    double high = 0.1;
    for (int i = 0; i < 60; i++) {
      double tau = Math.sqrt(low * high);
      double mean =
          1
              - tau
                  / WINDOW_SECONDS
                  * (Math.exp(-start / tau) - Math.exp(-(start + WINDOW_SECONDS) / tau));
      if (mean > share) {
        low = tau;
      } else {
        high = tau;
      }
    }
    return Math.sqrt(low * high);
  }
}
