package bellwire.hardware.budget;

import bellwire.board.BoardDescription;
import java.util.Map;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * The board's direct-current circuit with two ports on it and one resistance between them, solved
 * node by node; components by their nominal values and the deviations given.
 */
final class PairCircuit {
  /** What the return bus ends in. */
  enum End {
    LOW,
    MID,
    HIGH
  }

  /**
   * @param a voltage at terminal a against common
   * @param b at terminal b
   * @param end across the low reference, or at the transimpedance stage's output
   */
  record Volts(double a, double b, double end) {}

  private static final int DRIVE = 0;
  private static final int INNER_DRIVEN = 1;
  private static final int DRIVEN = 2;
  private static final int RETURNED = 3;
  private static final int INNER_RETURNED = 4;
  private static final int RETURN = 5;
  private static final int NODES = 6;

  private final BoardDescription board;
  private final double ohms;

  PairCircuit(BoardDescription board, double ohms) {
    this.board = board;
    this.ohms = Math.max(ohms, 1e-9);
  }

  /**
   * @param drivesA whether a is the driven port
   */
  Volts solve(Map<String, Double> deviations, boolean drivesA, boolean excited, End end) {
    String driven = drivesA ? "a" : "b";
    String returned = drivesA ? "b" : "a";
    RealMatrix siemens = new Array2DRowRealMatrix(NODES, NODES);
    RealVector amps = new ArrayRealVector(NODES);
    double limiter = named("limiter-ohms", "limiters", deviations);
    ground(siemens, DRIVE, limiter);
    if (excited) {
      amps.setEntry(DRIVE, named("excitation-volts", "excitation", deviations) / limiter);
    }
    join(siemens, DRIVE, INNER_DRIVEN, path("switch-ohms", "drive switch of ", driven, deviations));
    join(siemens, INNER_DRIVEN, DRIVEN, path("relay-ohms", "relay of ", driven, deviations));
    join(siemens, DRIVEN, RETURNED, ohms);
    join(siemens, RETURNED, INNER_RETURNED, path("relay-ohms", "relay of ", returned, deviations));
    join(
        siemens,
        INNER_RETURNED,
        RETURN,
        path("switch-ohms", "return switch of ", returned, deviations));
    ground(siemens, DRIVEN, dividerOhms("divider of " + driven, deviations));
    ground(siemens, RETURNED, dividerOhms("divider of " + returned, deviations));
    // Open switches that bridge the driven side and the return bus, with their mean conductance.
    double mean = leakSiemens(board) / 4;
    add(siemens, INNER_DRIVEN, RETURN, mean + of("open return switch of " + driven, deviations));
    add(siemens, DRIVE, INNER_RETURNED, mean + of("open drive switch of " + returned, deviations));
    amps.setEntry(RETURN, of("open switches, what they leak without excitation", deviations));
    return volts(siemens, amps, drivesA, end, deviations);
  }

  /** Largest change of one open switch's leakage with the voltage across it. */
  static double leakSiemens(BoardDescription board) {
    return board.value("switch-leakage-amps").tolerance()
        * board.value("switch-leakage-per-volt").tolerance();
  }

  private Volts volts(
      RealMatrix siemens,
      RealVector amps,
      boolean drivesA,
      End end,
      Map<String, Double> deviations) {
    double gain = board.nominal("amplifier-gain") * (1 + of("amplifier's gain", deviations));
    double feedback = feedbackOhms(end, deviations);
    ground(siemens, RETURN, end == End.LOW ? feedback : feedback / (1 + gain));
    RealVector v = new LUDecomposition(siemens).getSolver().solve(amps);
    double bus = v.getEntry(RETURN);
    double output = end == End.LOW ? bus : limited(-gain * bus, feedback, deviations);
    return new Volts(
        v.getEntry(drivesA ? DRIVEN : RETURNED), v.getEntry(drivesA ? RETURNED : DRIVEN), output);
  }

  /** The reference of a range with its tolerance and temperature, and the range's switch. */
  private double feedbackOhms(End end, Map<String, Double> deviations) {
    double relative = 1 + of("reference resistor", deviations) + of("its temperature", deviations);
    return switch (end) {
      case LOW -> board.nominal("low-reference-ohms") * relative;
      case MID -> board.nominal("mid-reference-ohms") * relative + of("range's switch", deviations);
      case HIGH ->
          board.nominal("high-reference-ohms") * relative + of("range's switch", deviations);
    };
  }

  /** The stage's output with the diodes across its feedback, by Newton's method. */
  private double limited(double volts, double feedbackOhms, Map<String, Double> deviations) {
    double scale = board.nominal("feedback-diode-volts");
    double amps = board.nominal("feedback-diode-amps") + of("feedback diodes", deviations);
    double unit = amps / Math.sinh(0.35 / scale);
    double more = of("hum in the feedback diodes", deviations);
    double x = volts;
    for (int i = 0; i < 50; i++) {
      double f =
          x + feedbackOhms * (unit * Math.sinh(x / scale) + more * Math.signum(volts)) - volts;
      double slope = 1 + feedbackOhms * unit * Math.cosh(x / scale) / scale;
      x -= f / slope;
    }
    return x;
  }

  private double dividerOhms(String name, Map<String, Double> deviations) {
    return (board.nominal("divider-top-ohms") + board.nominal("divider-bottom-ohms"))
        * (1 + of(name, deviations));
  }

  private double path(String value, String name, String port, Map<String, Double> deviations) {
    return board.nominal(value) + of(name + port, deviations);
  }

  private double named(String value, String name, Map<String, Double> deviations) {
    return board.nominal(value) + of(name, deviations);
  }

  static double of(String name, Map<String, Double> deviations) {
    return deviations.getOrDefault(name, 0.0);
  }

  private static void join(RealMatrix siemens, int i, int j, double ohms) {
    add(siemens, i, j, 1 / ohms);
  }

  private static void add(RealMatrix siemens, int i, int j, double conductance) {
    siemens.addToEntry(i, i, conductance);
    siemens.addToEntry(j, j, conductance);
    siemens.addToEntry(i, j, -conductance);
    siemens.addToEntry(j, i, -conductance);
  }

  private static void ground(RealMatrix siemens, int i, double ohms) {
    siemens.addToEntry(i, i, 1 / ohms);
  }
}
