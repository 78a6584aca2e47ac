package bellwire.analysis.circuit;

import org.hipparchus.complex.Complex;

/** Short-circuit impedance of a transformer, referred to its secondary. */
public final class TransformerImpedance {
  private TransformerImpedance() {}

  /**
   * The impedance behind which openVolts falls to ratedVolts under a resistive load of the rated
   * current, theory (67).
   *
   * @param openVolts V rms without load, no less than ratedVolts
   * @param ratedVolts V rms at rated current
   * @param voltAmperes rated apparent power, ratedVolts times rated current
   * @param xPerR reactance per resistance of the impedance, not negative
   * @return ohm
   */
  public static Complex of(double openVolts, double ratedVolts, double voltAmperes, double xPerR) {
    if (!(ratedVolts > 0) || !(openVolts >= ratedVolts) || !(voltAmperes > 0) || !(xPerR >= 0)) {
      throw new IllegalArgumentException(
          String.format(
              java.util.Locale.ROOT,
              "openVolts=%s ratedVolts=%s voltAmperes=%s xPerR=%s",
              openVolts,
              ratedVolts,
              voltAmperes,
              xPerR));
    }
    double ratedAmps = voltAmperes / ratedVolts;
    double rise = (openVolts - ratedVolts) * (openVolts + ratedVolts);
    double root = Math.sqrt(ratedVolts * ratedVolts + (1 + xPerR * xPerR) * rise);
    double resistance = rise / ((ratedVolts + root) * ratedAmps);
    return new Complex(resistance, xPerR * resistance);
  }
}
