package bellwire.analysis.landing;

import org.hipparchus.complex.Complex;

/**
 * Currents and voltages of series circuits, reckoned without the solver: every figure of the
 * samples is stated again here.
 */
final class ByHand {
  /** 27 V open, 24 V into 14.4 ohm (40 VA): |27| = |24 + (40/24)·R·(1 + 0.3j)| gives R = 1.7911. */
  static final Complex TRANSFORMER = new Complex(1.7911, 0.3 * 1.7911);

  static final double OPEN_VOLTS = 27;

  /** 18 AWG, 25 m: 6.385 ohm per 1000 ft (Floyd, as in test-fixtures/reference). */
  static final Complex CONDUCTOR = new Complex(6.385 * 25 / 304.8);

  /** Closed contact of a control. */
  static final Complex CONTACT = new Complex(0.1);

  /** A touch, copper on copper. */
  static final Complex TOUCH = new Complex(0.05);

  /** The bond of a common, or a short wire. */
  static final Complex BOND = new Complex(0.05);

  private ByHand() {}

  static Complex ohms(double ohms) {
    return new Complex(ohms);
  }

  static Complex load(double voltAmperes, double powerFactor) {
    double z = 24 * 24 / voltAmperes;
    return new Complex(z * powerFactor, z * Math.sqrt(1 - powerFactor * powerFactor));
  }

  static Complex parallel(Complex a, Complex b) {
    return a.multiply(b).divide(a.add(b));
  }

  /** What a voltage drives through impedances in series. */
  static double amps(double volts, Complex... series) {
    return volts / sum(series).norm();
  }

  /** What of a voltage is left across the first of some impedances in series. */
  static double volts(double volts, Complex... series) {
    return volts * series[0].norm() / sum(series).norm();
  }

  private static Complex sum(Complex... series) {
    Complex sum = Complex.ZERO;
    for (Complex z : series) {
      sum = sum.add(z);
    }
    return sum;
  }
}
