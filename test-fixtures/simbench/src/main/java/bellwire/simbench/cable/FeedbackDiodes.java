package bellwire.simbench.cable;

import bellwire.board.BoardDescription;

/**
 * The diodes across the transimpedance stage's feedback. Beside a feedback resistor R they take the
 * current unit · sinh(v/scale) each way, so that the output ends where v + R · unit · sinh(v/scale)
 * is what it would be without them; with a sine on top of it the mean of sinh grows by I₀ of its
 * amplitude. The circuit's other voltages do not depend on them.
 */
final class FeedbackDiodes {
  private static final double DIODE_VOLTS = 0.35;
  private static final int ITERATIONS = 60;

  private final double unitAmps;
  private final double scaleVolts;

  /**
   * @param amps at 0.35 V
   */
  FeedbackDiodes(BoardDescription board, double amps) {
    scaleVolts = board.nominal("feedback-diode-volts");
    unitAmps = amps / Math.sinh(DIODE_VOLTS / scaleVolts);
  }

  /** The output with the diodes, from the output without. */
  double limited(double volts, double feedbackOhms) {
    return solve(volts, feedbackOhms * unitAmps);
  }

  /**
   * The same of a mean.
   *
   * @param low least output in the window, without the diodes
   * @param high greatest
   */
  double limitedMean(double mean, double low, double high, double feedbackOhms) {
    double amplitude = (limited(high, feedbackOhms) - limited(low, feedbackOhms)) / 2;
    return solve(mean, feedbackOhms * unitAmps * bessel(amplitude / scaleVolts));
  }

  /** v with v + drop · sinh(v/scale) = volts: Newton's method from the side where it only falls. */
  private double solve(double volts, double drop) {
    double target = Math.abs(volts);
    double v = Math.min(target, scaleVolts * asinh(target / drop));
    for (int i = 0; i < ITERATIONS; i++) {
      double excess = v + drop * Math.sinh(v / scaleVolts) - target;
      double step = excess / (1 + drop / scaleVolts * Math.cosh(v / scaleVolts));
      v -= step;
      if (Math.abs(step) < 1e-15 + 1e-13 * v) {
        break;
      }
    }
    return Math.copySign(v, volts);
  }

  private static double asinh(double x) {
    return Math.log(x + Math.sqrt(1 + x * x));
  }

  /** I₀ by its series. */
  private static double bessel(double x) {
    double term = 1;
    double sum = 1;
    for (int k = 1; term > 1e-16 * sum; k++) {
      term *= x * x / (4.0 * k * k);
      sum += term;
    }
    return sum;
  }
}
