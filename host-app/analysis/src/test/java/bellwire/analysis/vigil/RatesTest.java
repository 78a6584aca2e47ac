package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assertions.assertThrows;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** Intervals of rates, and two rates compared, against published figures. */
class RatesTest {
  private static final Offset<Double> PRINTED_TO_14 = within(1e-9);

  @Test
  void intervalsAsPublished() {
    Row row = ReferenceTables.load("event-rates/poisson-interval").only();
    Interval rate =
        new PoissonRate(row.integer("events"), row.number("exposure"))
            .perSecond(row.number("confidence"));
    assertThat(rate.low()).isCloseTo(row.number("low"), PRINTED_TO_14);
    assertThat(rate.high()).isCloseTo(row.number("high"), PRINTED_TO_14);
    for (Row each : ReferenceTables.load("event-rates/poisson-interval-count").rows()) {
      assertThat(each.status().decides()).isTrue();
      Interval count =
          new PoissonRate(each.integer("events"), 1).perSecond(each.number("confidence"));
      assertThat(count.low()).isCloseTo(each.number("low"), within(0.0051));
      assertThat(count.high()).isCloseTo(each.number("high"), within(0.0051));
    }
    Row none = ReferenceTables.load("event-rates/poisson-interval-none").only();
    Interval zero = new PoissonRate(0, 1).perSecond(none.number("confidence"));
    assertThat(zero.low()).isZero();
    assertThat(zero.high()).isCloseTo(none.number("high"), within(0.00051));
  }

  /** The plain sums of Poisson terms at the limits are the tails. */
  @Test
  void theTailsAtTheLimitsAreHalfOfTheErrorEach() {
    for (int events : new int[] {1, 2, 7, 40, 300}) {
      Interval interval = new PoissonRate(events, 1).perSecond(0.95);
      assertThat(1 - atMost(events - 1, interval.low())).isCloseTo(0.025, within(1e-8));
      assertThat(atMost(events, interval.high())).isCloseTo(0.025, within(1e-8));
    }
  }

  private static double atMost(int events, double mean) {
    double term = Math.exp(-mean);
    double sum = term;
    for (int i = 1; i <= events; i++) {
      term *= mean / i;
      sum += term;
    }
    return sum;
  }

  @Test
  void theIntervalHoldsTheRateAsOftenAsItSays() {
    long seed = 99;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    int runs = 4000;
    int held = 0;
    for (int i = 0; i < runs; i++) {
      int events = 0;
      for (double t = -Math.log(random.nextDouble()); t < 6.5; t -= Math.log(random.nextDouble())) {
        events++;
      }
      Interval interval = new PoissonRate(events, 6.5).perSecond(0.9);
      held += interval.low() <= 1 && 1 <= interval.high() ? 1 : 0;
    }
    // Exact means at least: discrete counts make it more.
    assertThat(held)
        .isBetween((int) (0.9 * runs - 4 * Math.sqrt(0.09 * runs)), (int) (0.98 * runs));
  }

  @Test
  void comparisonAsPublished() {
    Row row = ReferenceTables.load("event-rates/rate-comparison").only();
    PoissonRate first = new PoissonRate(row.integer("events1"), row.number("exposure1"));
    PoissonRate second = new PoissonRate(row.integer("events2"), row.number("exposure2"));
    // So many in the first is so few in the second.
    assertThat(new RateComparison(first, second).chanceOfSoFew(1 / row.number("ratio")))
        .isCloseTo(row.number("chance"), within(1e-12));
    Row limits = ReferenceTables.load("event-rates/rate-comparison-interval").only();
    Interval ratio = new RateComparison(second, first).ratio(0.95);
    assertThat(ratio.low()).isCloseTo(limits.number("low"), within(1e-6));
    assertThat(ratio.high()).isCloseTo(limits.number("high"), within(1e-6));
  }

  @Test
  void noEventAfterARepair() {
    // 11 events in 6 h: at that very rate none in 3 h has exp(-5.5) = 0.41 %.
    PoissonRate before = new PoissonRate(11, 6 * 3600);
    assertThat(RateComparison.chanceOfNone(before, 3 * 3600)).isCloseTo(0.0040868, within(1e-7));
    // The rate itself known from 11 events only: (6/9)^11.
    RateComparison quiet = new RateComparison(before, new PoissonRate(0, 3 * 3600));
    assertThat(quiet.chanceOfSoFew(1)).isCloseTo(Math.pow(6 / 9.0, 11), within(1e-12));
    Interval ratio = quiet.ratio(0.95);
    assertThat(ratio.low()).isZero();
    assertThat(quiet.chanceOfSoFew(ratio.high())).isCloseTo(0.025, within(1e-7));
    assertThat(new RateComparison(new PoissonRate(0, 1), before).ratio(0.95).high()).isInfinite();
  }

  @Test
  void howLongToWatch() {
    for (long events : new long[] {1, 3, 50}) {
      PoissonRate before = new PoissonRate(events, 3600);
      double seconds = RateComparison.secondsToBeSure(before, 0.95);
      assertThat(new RateComparison(before, new PoissonRate(0, seconds)).chanceOfSoFew(1))
          .isCloseTo(0.05, within(1e-12));
    }
    // One event only: nineteen times as long. Many: the 'rule of three', 2.996 mean gaps.
    assertThat(RateComparison.secondsToBeSure(new PoissonRate(1, 60), 0.95))
        .isCloseTo(1140, within(1e-9));
    double one =
        ReferenceTables.load("event-rates/poisson-interval-none").only().number("highOneSided");
    assertThat(RateComparison.secondsToBeSure(new PoissonRate(1_000_000, 1_000_000), 0.95))
        .isCloseTo(one, within(0.00051));
    assertThat(RateComparison.secondsToBeSure(new PoissonRate(0, 60), 0.95)).isInfinite();
  }

  @Test
  void whatIsSeenByChanceCountsForLessTime() {
    PoissonRate seen = new PoissonRate(8, 1000);
    assertThat(seen.seenWith(0.5).perSecond()).isEqualTo(0.016);
    assertThat(seen.seenWith(0.5).perSecond(0.95).high())
        .isCloseTo(2 * seen.perSecond(0.95).high(), within(1e-12));
    assertThatThrownBy(() -> seen.seenWith(0)).hasMessage("chance=0.0");
    assertThatThrownBy(() -> seen.perSecond(1)).hasMessage("confidence=1.0");
    assertThatThrownBy(() -> new PoissonRate(-1, 1)).hasMessage("events=-1 seconds=1.0");
  }

  @Test
  void ratesThatCannotBeAreRefused() {
    PoissonRate one = new PoissonRate(1, 1);
    assertThat(one.seenWith(1)).isEqualTo(one);
    PoissonRate most = new PoissonRate(Integer.MAX_VALUE, 1);
    assertThat(new RateComparison(most, new PoissonRate(0, 1)).before()).isEqualTo(most);
    Map<String, Executable> refused = new LinkedHashMap<>();
    refused.put("events=-1", () -> new PoissonRate(-1, 1));
    refused.put("seconds=0.0", () -> new PoissonRate(0, 0));
    refused.put("seconds=Infinity", () -> new PoissonRate(0, 1 / 0.0));
    refused.put("chance=0.0", () -> one.seenWith(0));
    refused.put("chance=1.01", () -> one.seenWith(1.01));
    refused.put("confidence=0.0", () -> one.perSecond(0));
    refused.put("confidence=1.0", () -> one.perSecond(1));
    refused.put("events=2147483647+1", () -> new RateComparison(most, one));
    RateComparison both = new RateComparison(one, one);
    refused.put("ratio=0.0", () -> both.chanceOfSoFew(0));
    refused.put("ratio=Infinity", () -> both.chanceOfSoFew(1 / 0.0));
    refused.put("confidence=-0.0", () -> both.ratio(-0.0));
    refused.put("confidence=1.5", () -> both.ratio(1.5));
    refused.put("confidence=-1.0", () -> RateComparison.secondsToBeSure(one, -1));
    refused.put("confidence=2.0", () -> RateComparison.secondsToBeSure(one, 2));
    refused.forEach(
        (message, call) ->
            assertThat(assertThrows(IllegalArgumentException.class, call))
                .hasMessageContaining(message));
  }
}
