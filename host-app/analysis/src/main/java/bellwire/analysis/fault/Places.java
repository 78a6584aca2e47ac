package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;

/** Arithmetic on places and sizes that several explanations give. */
final class Places {
  private Places() {}

  /**
   * A place along the run, known to lie between its ends: mean and standard deviation of the normal
   * distribution cut off at 0 and 1.
   */
  static Quantity withinRun(Quantity fitted) {
    double mean = fitted.value();
    double sigma = Math.max(fitted.u(), 1e-6);
    NormalDistribution normal = new NormalDistribution();
    double low = -mean / sigma;
    double high = (1 - mean) / sigma;
    double mass = normal.cumulativeProbability(high) - normal.cumulativeProbability(low);
    if (mass < 1e-12) {
      return new Quantity(mean < 0.5 ? 0 : 1, sigma, fitted.unit());
    }
    double atLow = normal.density(low);
    double atHigh = normal.density(high);
    double shift = (atLow - atHigh) / mass;
    double variance = 1 + (low * atLow - high * atHigh) / mass - shift * shift;
    return new Quantity(
        mean + sigma * shift, sigma * Math.sqrt(Math.max(variance, 0)), fitted.unit());
  }

  /** Anywhere between two ends. */
  static Quantity uniform(double low, double high, String unit) {
    return new Quantity((low + high) / 2, (high - low) / Math.sqrt(12), unit);
  }

  /** Mean and standard deviation of a mixture; null where one of the parts is. */
  static @Nullable Quantity mixed(List<? extends @Nullable Quantity> parts, double[] weights) {
    double mean = 0;
    double square = 0;
    String unit = "";
    for (int k = 0; k < weights.length; k++) {
      Quantity part = parts.get(k);
      if (part == null) {
        return null;
      }
      mean += weights[k] * part.value();
      square += weights[k] * (part.value() * part.value() + part.u() * part.u());
      unit = part.unit();
    }
    return new Quantity(mean, Math.sqrt(Math.max(square - mean * mean, 0)), unit);
  }
}
