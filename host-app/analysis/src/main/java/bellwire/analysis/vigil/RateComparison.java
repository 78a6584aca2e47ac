package bellwire.analysis.vigil;

import org.hipparchus.distribution.continuous.BetaDistribution;
import org.hipparchus.distribution.discrete.BinomialDistribution;

/**
 * Two vigils, before and after a repair. With the sum of both counts given, the later one is
 * binomial, so that the unknown rate drops out (Przyborowski and Wilenski 1940).
 *
 * @param before the repair
 * @param after it
 */
public record RateComparison(PoissonRate before, PoissonRate after) {

  public RateComparison {
    if (before.events() + after.events() > Integer.MAX_VALUE) {
      throw new IllegalArgumentException("events=" + before.events() + "+" + after.events());
    }
  }

  /**
   * Chance of so few events after, were the rate then this many times the earlier one: 1 for
   * nothing repaired. What it costs not to know the earlier rate well is in it. Theory (105).
   */
  public double chanceOfSoFew(double ratio) {
    if (!(ratio > 0 && Double.isFinite(ratio))) {
      throw new IllegalArgumentException("ratio=" + ratio);
    }
    double share = ratio * after.seconds() / (before.seconds() + ratio * after.seconds());
    return new BinomialDistribution((int) total(), share)
        .cumulativeProbability((int) after.events());
  }

  /** Exact interval of later rate over earlier rate, from Clopper and Pearson's. Theory (105). */
  public Interval ratio(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("confidence=" + confidence);
    }
    double tail = (1 - confidence) / 2;
    double x = after.events();
    double y = before.events();
    double low = x == 0 ? 0 : new BetaDistribution(x, y + 1).inverseCumulativeProbability(tail);
    double high =
        y == 0 ? 1 : new BetaDistribution(x + 1, y).inverseCumulativeProbability(1 - tail);
    double times = before.seconds() / after.seconds();
    return new Interval(
        times * low / (1 - low), high == 1 ? Double.POSITIVE_INFINITY : times * high / (1 - high));
  }

  /** Chance of no event in a further time, were the earlier rate just as seen. Theory (106). */
  public static double chanceOfNone(PoissonRate before, double seconds) {
    return Math.exp(-before.perSecond() * seconds);
  }

  /**
   * How long to watch without an event to be sure that the rate has fallen: {@link #chanceOfSoFew}
   * is then 1 − confidence. Infinite if there was no event before. Theory (107).
   */
  public static double secondsToBeSure(PoissonRate before, double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("confidence=" + confidence);
    }
    return before.seconds() * Math.expm1(-Math.log1p(-confidence) / before.events());
  }

  private long total() {
    return before.events() + after.events();
  }
}
