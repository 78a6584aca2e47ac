package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.vigil.ConductorTrend.Course;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Trends of a few readings, whose means, extremes and blocks can be told by hand. */
class TrendByHandTest {
  private static final long HOUR = 3_600_000_000L;

  private static Watch watch(long hours) {
    return new Watch(
        VigilProgram.TREND, 0b111, 0, Double.NaN, 0, hours * HOUR, List.of(), List.of());
  }

  private static TrendSeries series(int port, long stepMicros, double... ohms) {
    long[] micros = new long[ohms.length];
    Arrays.setAll(micros, i -> i * stepMicros);
    return new TrendSeries(port, micros, ohms, 0.0005);
  }

  @Test
  void fewReadingsTellOnlyWhatTheyAre() {
    double nan = Double.NaN;
    TrendSummary summary =
        TrendSummary.of(
            watch(1),
            List.of(
                series(4, 1_000_000, nan, 1.5, 1.25, nan, 2.0, 1.25),
                series(6, 1_000_000, nan, nan)));
    ConductorTrend first = summary.conductors().get(0);
    assertThat(first.port()).isEqualTo(4);
    assertThat(first.readings()).isEqualTo(4);
    assertThat(first.open()).isEqualTo(2);
    assertThat(first.mean().value()).isEqualTo(1.5);
    assertThat(first.mean().u()).isEqualTo(0.0005);
    assertThat(first.leastOhms()).isEqualTo(1.25);
    assertThat(first.leastMicros()).as("the first of equal ones").isEqualTo(2_000_000);
    assertThat(first.greatestOhms()).isEqualTo(2);
    assertThat(first.greatestMicros()).isEqualTo(4_000_000);
    assertThat(first.course()).isEqualTo(Course.TOO_FEW);
    assertThat(first.chance()).isEqualTo(1);
    assertThat(first.changeMicros()).isEqualTo(-1);
    assertThat(first.alarm()).isEmpty();
    ConductorTrend none = summary.conductors().get(1);
    assertThat(none.readings()).isZero();
    assertThat(none.open()).isEqualTo(2);
    assertThat(none.mean().value()).isNaN();
    assertThat(none.leastOhms()).isNaN();
    assertThat(none.leastMicros()).isEqualTo(-1);
    assertThat(none.greatestOhms()).isNaN();
    assertThat(none.greatestMicros()).isEqualTo(-1);
    assertThat(summary.common()).as("two share nothing").isEmpty();
    assertThat(summary.kelvin()).isNaN();
    assertThat(summary.falseAlarmDays()).isEqualTo(30);
  }

  /** Blocks of 25 from 0 to 99: a value on a border belongs to the later one. */
  @Test
  void blocksAreMeansOfWhatWasRead() {
    TrendSeries one =
        new TrendSeries(
            0, new long[] {0, 24, 25, 49, 80}, new double[] {1, 3, 5, Double.NaN, 7}, 1);
    TrendBlocks blocks = TrendBlocks.of(List.of(one), 0, 99, 4);
    assertThat(blocks.blockMicros()).isEqualTo(25);
    assertThat(blocks.blocks()).isEqualTo(4);
    assertThat(blocks.mean()[0]).containsExactly(2, 5, Double.NaN, 7);
    assertThat(blocks.count()[0]).containsExactly(2, 1, 0, 1);
    assertThat(blocks.midMicros(0)).isEqualTo(12);
    assertThat(blocks.midMicros(3)).isEqualTo(87);
    // What lies outside the watch is in no block.
    TrendBlocks late = TrendBlocks.of(List.of(one), 50, 99, 2);
    assertThat(late.mean()[0]).containsExactly(Double.NaN, 7);
    assertThat(TrendBlocks.of(List.of(), 0, 99, 4).blocks()).isZero();
    assertThat(TrendBlocks.median(new double[] {5, Double.NaN, 1, 3})).isEqualTo(3);
    assertThat(TrendBlocks.median(new double[] {5, 1, 3, 4})).isEqualTo(3.5);
    assertThat(TrendBlocks.median(new double[] {Double.NaN})).isNaN();
  }

  /** Values in turn are -1/2 by their differences, one that walks 1; a step alone moves neither. */
  @Test
  void neighboursCorrelationIsThatOfTheirSteps() {
    SplittableRandom random = new SplittableRandom(97);
    double[] apart = new double[4_000];
    double[] walked = new double[4_000];
    for (int i = 0; i < apart.length; i++) {
      apart[i] = random.nextGaussian() + (i < 2_000 ? 0 : 1_000);
      walked[i] = (i == 0 ? 0 : walked[i - 1]) + random.nextGaussian();
    }
    // Five deviations of a correlation of 4000, 1/63.
    assertThat(TrendFit.correlation(apart)).as("seed 97").isCloseTo(0, within(0.16));
    assertThat(TrendFit.correlation(walked)).as("seed 97").isCloseTo(1, within(0.16));
    assertThat(TrendFit.correlation(new double[] {1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1}))
        .as("too few")
        .isZero();
    assertThat(TrendFit.correlation(new double[40])).as("nothing moves").isZero();
  }

  @Test
  void meansAndTheirDeviations() {
    double[] values = {1, 2, 3, 6};
    assertThat(TrendFit.mean(values)).isEqualTo(3);
    // (4 + 1 + 0 + 9) / 3
    assertThat(TrendFit.deviation(values)).isCloseTo(Math.sqrt(14 / 3.0), within(1e-12));
    assertThat(TrendFit.meanDeviation(values)).isCloseTo(Math.sqrt(14 / 12.0), within(1e-12));
    assertThat(TrendFit.present(new double[] {1, Double.NaN, 3, 4}, 1, 4)).containsExactly(3, 4);
  }

  /** One of three rises by 0.2 ohm at the 60th of 96 readings; none else changes. */
  @Test
  void aStepAmongThreeStandsWhereItIs() {
    SplittableRandom random = new SplittableRandom(98);
    double[][] ohms = new double[3][96];
    for (int i = 0; i < 96; i++) {
      for (int s = 0; s < 3; s++) {
        ohms[s][i] = 1 + s + 0.0005 * random.nextGaussian() + (s == 1 && i >= 60 ? 0.2 : 0);
      }
    }
    long step = 15 * 60_000_000L;
    TrendSummary summary =
        TrendSummary.of(
            watch(24),
            List.of(series(0, step, ohms[0]), series(1, step, ohms[1]), series(2, step, ohms[2])));
    ConductorTrend moved = summary.conductors().get(1);
    assertThat(moved.course()).as("seed 98").isEqualTo(Course.STEP);
    // To a block: its edge lies at most one before the reading that shows it.
    assertThat(moved.changeMicros()).isCloseTo(60 * step, within(summary.blockMicros() + step));
    // Of nine blocks behind it or more one may lie astride, by a half at most: 0.1/9.
    assertThat(moved.change().value()).isCloseTo(0.2, within(0.0115));
    assertThat(moved.alarm().orElseThrow().side()).isEqualTo(Cusum.Alarm.UP);
    assertThat(moved.alarm().orElseThrow().sinceMicros())
        .isCloseTo(60 * step, within(2 * summary.blockMicros() + step));
    assertThat(moved.alarm().orElseThrow().micros())
        .isBetween(60 * step, 60 * step + 3 * summary.blockMicros());
    assertThat(summary.conductors().get(0).course()).isEqualTo(Course.STEADY);
    assertThat(summary.conductors().get(2).course()).isEqualTo(Course.STEADY);
    assertThat(summary.common().orElseThrow().value()).isCloseTo(0, within(0.001));
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new TrendSeries(3, new long[2], new double[3], 1))
        .withMessage("port=3 micros=2 ohms=3 readingOhms=1.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new TrendSeries(3, new long[2], new double[2], 0))
        .withMessageContaining("readingOhms=0.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Watch(VigilProgram.TREND, 0, 0, 1, 0, 5, List.of(), List.of()))
        .withMessage("ports=0 fromMicros=0 toMicros=5");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Watch(VigilProgram.TREND, 1, 0, 1, 6, 5, List.of(), List.of()))
        .withMessage("ports=1 fromMicros=6 toMicros=5");
  }
}
