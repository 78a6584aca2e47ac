package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.vigil.ConductorTrend.Course;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class TrendSummaryTest {
  private static final double HOURS = 24;
  private static final int ROUNDS = 4000;
  private static final double NOISE_OHMS = 0.0005;

  private static final DoubleUnaryOperator NOTHING = hour -> 0;

  /**
   * 0.5 to 1 ohm of copper that warms by 8 K over the day; the second one also has its own part.
   */
  private static TrendSummary summary(Random random, int conductors, DoubleUnaryOperator own) {
    return summary(random, conductors, own, NOISE_OHMS);
  }

  private static TrendSummary summary(
      Random random, int conductors, DoubleUnaryOperator own, double noiseOhms) {
    List<TrendSeries> series = new ArrayList<>();
    for (int c = 0; c < conductors; c++) {
      long[] micros = new long[ROUNDS];
      double[] ohms = new double[ROUNDS];
      for (int i = 0; i < ROUNDS; i++) {
        double hour = HOURS * i / ROUNDS;
        micros[i] = (long) (hour * 3600e6) + c;
        double warm = 1 + 0.00393 * 4 * (1 - Math.cos(Math.PI * hour / HOURS));
        ohms[i] =
            (0.5 + 0.1 * c) * warm
                + (c == 1 ? own.applyAsDouble(hour) : 0)
                + noiseOhms * random.nextGaussian();
      }
      series.add(new TrendSeries(c, micros, ohms, noiseOhms));
    }
    Watch watch =
        new Watch(
            VigilProgram.TREND,
            (1 << conductors) - 1,
            0,
            Double.NaN,
            0,
            (long) (HOURS * 3600e6),
            List.of(),
            List.of());
    return TrendSummary.of(watch, series);
  }

  @Test
  void warmthIsSharedAndNoConductorsOwn() {
    Random random = new Random(91);
    int draws = 40;
    int moved = 0;
    int alarms = 0;
    for (int draw = 0; draw < draws; draw++) {
      TrendSummary summary = summary(random, 5, NOTHING);
      for (ConductorTrend each : summary.conductors()) {
        moved += each.course() == Course.STEADY ? 0 : 1;
        alarms += each.alarm().isPresent() ? 1 : 0;
      }
      // The last quarter's mean less the first quarter's, of 4 (1 - cos(pi h/24)), of copper that
      // was then 0.4 K above where its coefficient holds.
      double quarters = 8 * 2 * Math.sqrt(2) / Math.PI;
      double warmer = quarters / (1 + 0.00393 * (8 - quarters) / 2);
      assertThat(summary.kelvin()).isCloseTo(warmer, within(0.03));
    }
    System.out.println(
        "seed 91: of " + 5 * draws + " steady ones moved " + moved + ", alarms " + alarms);
    // 1 % are 2; an alarm in 30 days is 3.3 % of a day: 7.
    assertThat(moved).as("seed 91").isLessThan(9);
    assertThat(alarms).as("seed 91").isLessThan(14);
  }

  @Test
  void aStepIsFoundWhereItIs() {
    Random random = new Random(92);
    for (int draw = 0; draw < 12; draw++) {
      double at = 4 + 16 * random.nextDouble();
      TrendSummary summary = summary(random, 5, hour -> hour > at ? 0.003 : 0);
      ConductorTrend of = summary.conductors().get(1);
      assertThat(of.course()).as("seed 92").isEqualTo(Course.STEP);
      assertThat(of.changeMicros() / 3600e6).isCloseTo(at, within(0.2));
      assertThat(of.change().value()).isCloseTo(0.003, within(5 * of.change().u()));
      assertThat(of.alarm()).isPresent();
      assertThat(summary.conductors().get(3).course()).isEqualTo(Course.STEADY);
    }
  }

  @Test
  void aSlowRiseHasItsSlope() {
    Random random = new Random(93);
    int held = 0;
    int draws = 40;
    for (int draw = 0; draw < draws; draw++) {
      ConductorTrend of = summary(random, 5, hour -> 0.0001 * hour).conductors().get(1);
      assertThat(of.course()).as("seed 93").isEqualTo(Course.SLOPE);
      held += Math.abs(of.perHour().value() - 0.0001) < 2 * of.perHour().u() ? 1 : 0;
    }
    System.out.println("seed 93: slopes within 2 u " + held + " of " + draws);
    assertThat(held).as("seed 93").isGreaterThan(34);
  }

  /** So even and so large a rise leaves every other one falling, held against it. */
  @Test
  void aJointThatDoublesTakesNoOtherOneAlong() {
    Random random = new Random(96);
    TrendSummary summary = summary(random, 5, hour -> 0.025 * Math.floor(4 * hour) / 4, 1e-5);
    for (ConductorTrend each : summary.conductors()) {
      assertThat(each.course())
          .as("seed 96 port=%d", each.port())
          .isEqualTo(each.port() == 1 ? Course.SLOPE : Course.STEADY);
    }
    assertThat(summary.conductors().get(1).perHour().value()).isCloseTo(0.025, within(0.0002));
    assertThat(summary.kelvin()).isBetween(6.8, 7.4); // of warmth alone
  }

  @Test
  void whatOneDoesIsNotLaidToTheOthers() {
    Random random = new Random(96);
    for (int draw = 0; draw < 12; draw++) {
      double[] walked = new double[24 * 60 + 1];
      for (int minute = 1; minute < walked.length; minute++) {
        walked[minute] = walked[minute - 1] + 0.0002 + 0.003 * random.nextGaussian();
      }
      TrendSummary summary = summary(random, 6, hour -> walked[(int) (60 * hour)]);
      for (ConductorTrend each : summary.conductors()) {
        if (each.port() != 1) {
          assertThat(each.course()).as("seed 96, draw " + draw).isEqualTo(Course.STEADY);
        }
      }
      assertThat(summary.conductors().get(1).course()).as("seed 96").isNotEqualTo(Course.STEADY);
    }
  }

  @Test
  void withTwoNothingIsSharedAndItIsSaid() {
    TrendSummary summary = summary(new Random(94), 2, NOTHING);
    assertThat(summary.common()).isEmpty();
  }

  @Test
  void aReadingWithoutValueIsCountedAndTheWorstIsKept() {
    Random random = new Random(95);
    TrendSummary summary = summary(random, 4, hour -> hour > 12 && hour < 12.01 ? 0.4 : 0);
    ConductorTrend of = summary.conductors().get(1);
    assertThat(of.greatestOhms()).isGreaterThan(0.99);
    assertThat(of.open()).isZero();
  }
}
