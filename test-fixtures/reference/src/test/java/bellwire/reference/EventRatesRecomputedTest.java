package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Limits from the plain sums of Poisson and binomial terms, by bisection. */
class EventRatesRecomputedTest {

  /** Chance of n or fewer, Poisson. */
  private static double poissonAtMost(int n, double mean) {
    double term = Math.exp(-mean);
    double sum = term;
    for (int i = 1; i <= n; i++) {
      term *= mean / i;
      sum += term;
    }
    return sum;
  }

  /** Chance of x or more in n, binomial. */
  private static double binomialAtLeast(int x, int n, double p) {
    double sum = 0;
    for (int i = x; i <= n; i++) {
      double term = 1;
      for (int j = 0; j < i; j++) {
        term *= (double) (n - j) / (j + 1);
      }
      sum += term * Math.pow(p, i) * Math.pow(1 - p, n - i);
    }
    return sum;
  }

  /** Where a rising function is 0. */
  private static double root(double low, double high, DoubleUnaryOperator rising) {
    for (int i = 0; i < 200; i++) {
      double middle = (low + high) / 2;
      if (rising.applyAsDouble(middle) < 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static double low(int events, double tail) {
    return root(0, 200, m -> 1 - poissonAtMost(events - 1, m) - tail);
  }

  private static double high(int events, double tail) {
    return root(0, 200, m -> tail - poissonAtMost(events, m));
  }

  @Test
  void poissonIntervals() {
    Row row = ReferenceTables.load("event-rates/poisson-interval").only();
    double exposure = row.number("exposure");
    assertThat(low(15, 0.025) / exposure).isCloseTo(row.number("low"), within(1e-12));
    assertThat(high(15, 0.025) / exposure).isCloseTo(row.number("high"), within(1e-12));
    for (Row each : ReferenceTables.load("event-rates/poisson-interval-count").rows()) {
      double tail = (1 - each.number("confidence")) / 2;
      int events = each.integer("events");
      // The page's 14.00 is 13.9954.
      assertThat(each.number("low")).isCloseTo(low(events, tail), within(0.0051));
      assertThat(each.number("high")).isCloseTo(high(events, tail), within(0.0051));
    }
    Row none = ReferenceTables.load("event-rates/poisson-interval-none").only();
    assertThat(none.number("high")).isCloseTo(high(0, 0.025), within(0.00051));
    assertThat(none.number("highOneSided")).isCloseTo(high(0, 0.05), within(0.00051));
  }

  @Test
  void rateComparison() {
    Row row = ReferenceTables.load("event-rates/rate-comparison").only();
    double weight = row.number("ratio") * row.number("exposure1") / row.number("exposure2");
    assertThat(binomialAtLeast(60, 90, weight / (1 + weight)))
        .isCloseTo(row.number("chance"), within(1e-12));
    Row limits = ReferenceTables.load("event-rates/rate-comparison-interval").only();
    double low = root(0, 1, p -> binomialAtLeast(60, 90, p) - 0.025);
    double high = root(0, 1, p -> binomialAtLeast(61, 90, p) - 0.975);
    double times = limits.number("exposure2") / limits.number("exposure1");
    assertThat(limits.number("low")).isCloseTo(times * low / (1 - low), within(5.1e-8));
    assertThat(limits.number("high")).isCloseTo(times * high / (1 - high), within(5.1e-8));
  }

  @Test
  void horseKicks() {
    Row row = ReferenceTables.load("event-rates/horse-kicks").only();
    double[] frequency = row.numbers("frequency");
    double n = Arrays.stream(frequency).sum();
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < frequency.length; i++) {
      sum += frequency[i] * i;
      squares += frequency[i] * i * i;
    }
    double variance = (squares - sum * sum / n) / (n - 1);
    assertThat(sum / n).isCloseTo(row.number("mean"), within(1e-12));
    Row said = ReferenceTables.load("event-rates/horse-kicks-dispersion").only();
    assertThat(said.number("variance")).isCloseTo(variance, within(5.1e-8));
    assertThat(said.number("fano")).isCloseTo(variance / (sum / n), within(5.1e-8));
  }

  @Test
  void rayleighResultants() {
    for (Row row : ReferenceTables.load("event-rates/rayleigh").rows()) {
      double[] radians = row.numbers("radians");
      double cos = Arrays.stream(radians).map(Math::cos).average().orElseThrow();
      double sin = Arrays.stream(radians).map(Math::sin).average().orElseThrow();
      double length = Math.hypot(cos, sin);
      assertThat(row.number("resultant"))
          .isCloseTo(length, within(0.51 * row.lastPlace("resultant")));
      // The leading term of the chance; the series in 1/n changes it by a third at n = 10.
      double leading = Math.exp(-radians.length * length * length);
      assertThat(row.number("chance") / leading).isBetween(0.3, 1.1);
    }
  }
}
