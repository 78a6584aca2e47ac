package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Means over windows against sums of small steps, and slopes against small differences. */
class ChargeCurveTest {
  private static final double START = 160e-6;
  private static final double WINDOW = 2.5e-3;
  private static final ChargeCurve CURVE = new ChargeCurve(START, WINDOW);
  private static final int[] WINDOWS = {0, 1, 7};
  private static final double[] TAUS = {0.3e-3, 2e-3, 11e-3};
  private static final double[] OMEGAS = {2 * Math.PI * 50, 2 * Math.PI * 60};

  private static double mean(int window, DoubleUnaryOperator f) {
    int n = 2000;
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += f.applyAsDouble(START + (window + (k + 0.5) / n) * WINDOW);
    }
    return sum / n;
  }

  private static double slope(DoubleUnaryOperator f, double h) {
    return (f.applyAsDouble(h) - f.applyAsDouble(-h)) / (2 * h);
  }

  @Test
  void eachConversionIsTheMeanOverItsWindow() {
    for (int window : WINDOWS) {
      for (double tau : TAUS) {
        assertThat(CURVE.lacking(window, tau))
            .isCloseTo(mean(window, t -> Math.exp(-t / tau)), within(1e-6));
      }
      for (double omega : OMEGAS) {
        assertThat(CURVE.cosine(window, omega))
            .isCloseTo(mean(window, t -> Math.cos(omega * t)), within(1e-6));
        assertThat(CURVE.sine(window, omega))
            .isCloseTo(mean(window, t -> Math.sin(omega * t)), within(1e-6));
      }
    }
  }

  @Test
  void whatIsLackingChangesWithTauAndStart() {
    for (int window : WINDOWS) {
      for (double tau : TAUS) {
        assertThat(CURVE.lackingByLogTau(window, tau))
            .isCloseTo(slope(x -> CURVE.lacking(window, tau * Math.exp(x)), 1e-4), within(1e-7));
        double byStart = slope(s -> new ChargeCurve(START + s, WINDOW).lacking(window, tau), 1e-8);
        assertThat(CURVE.lackingByStart(window, tau))
            .isCloseTo(byStart, within(1e-5 * Math.abs(byStart) + 1e-4));
      }
    }
  }

  @Test
  void theToneChangesWithStartAndFrequency() {
    for (int window : WINDOWS) {
      for (double omega : OMEGAS) {
        double[] byStart = CURVE.toneByStart(window, omega);
        assertThat(byStart[0])
            .isCloseTo(
                slope(s -> new ChargeCurve(START + s, WINDOW).cosine(window, omega), 1e-7),
                within(1e-3));
        assertThat(byStart[1])
            .isCloseTo(
                slope(s -> new ChargeCurve(START + s, WINDOW).sine(window, omega), 1e-7),
                within(1e-3));
        double[] byOmega = CURVE.toneByLogOmega(window, omega);
        assertThat(byOmega[0])
            .isCloseTo(slope(x -> CURVE.cosine(window, omega * Math.exp(x)), 1e-5), within(1e-6));
        assertThat(byOmega[1])
            .isCloseTo(slope(x -> CURVE.sine(window, omega * Math.exp(x)), 1e-5), within(1e-6));
      }
    }
  }
}
