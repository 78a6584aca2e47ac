package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.vigil.ConductorTrend.Course;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Courses of blocks of two minutes whose figures the textbook's sums give. */
class CourseFinderTest {
  private static final long BLOCK = 120_000_000;
  private static final double MONTH_MICROS = 30 * 86_400e6;
  private static final int BLOCKS = 40;
  private static final double READING_OHMS = 0.002;

  /** Up and down around its course, so that neighbours are no more alike than others. */
  private static double around(int block) {
    return 1e-3 * ((block * 7 % 5) - 2);
  }

  private static double[] ohms(IntToDoubleFunction course) {
    double[] ohms = new double[BLOCKS];
    Arrays.setAll(ohms, b -> course.applyAsDouble(b) + around(b));
    return ohms;
  }

  /** A reading a block, in its middle. */
  private static ConductorTrend trend(double[] ohms) {
    long[] micros = new long[ohms.length];
    Arrays.setAll(micros, b -> b * BLOCK + BLOCK / 2);
    TrendSeries series = new TrendSeries(3, micros, ohms, READING_OHMS);
    TrendBlocks blocks = TrendBlocks.of(List.of(series), 0, ohms.length * BLOCK - 1, ohms.length);
    assertThat(blocks.mean()[0]).containsExactly(ohms);
    return new CourseFinder(series, blocks, ohms).trend(MONTH_MICROS);
  }

  /** Slope s = Sxy/Sxx and u(s) = √(SSE/((n − 2) Sxx)), x in hours. */
  @Test
  void aSlopeIsTheLineOfLeastSquares() {
    double[] y = ohms(b -> 1 + 0.004 * b);
    double meanX = (BLOCKS - 1) / 2.0;
    double meanY = Arrays.stream(y).average().orElseThrow();
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int b = 0; b < BLOCKS; b++) {
      xx += (b - meanX) * (b - meanX);
      xy += (b - meanX) * (y[b] - meanY);
      yy += (y[b] - meanY) * (y[b] - meanY);
    }
    double blocksAnHour = 30;
    double slope = xy / xx;
    double u = Math.sqrt((yy - xy * xy / xx) / (BLOCKS - 2) / xx);
    ConductorTrend said = trend(y);
    assertThat(said.course()).isEqualTo(Course.SLOPE);
    assertThat(said.perHour().value()).isCloseTo(slope * blocksAnHour, within(1e-9));
    assertThat(said.perHour().u()).isCloseTo(u * blocksAnHour, within(1e-9));
    assertThat(said.change().value()).isCloseTo(slope * (BLOCKS - 1), within(1e-9));
    assertThat(said.change().u()).isCloseTo(u * (BLOCKS - 1), within(1e-9));
    assertThat(said.chance()).isLessThan(1e-9);
  }

  /** The change lies between two blocks, its size between their means: u of each is s/√n. */
  @Test
  void aStepLiesBetweenTwoBlocks() {
    int before = 25;
    double[] y = ohms(b -> b < before ? 1 : 1.05);
    ConductorTrend said = trend(y);
    assertThat(said.course()).isEqualTo(Course.STEP);
    assertThat(said.changeMicros()).isEqualTo(before * BLOCK);
    double[] first = Arrays.copyOf(y, before);
    double[] second = Arrays.copyOfRange(y, before, BLOCKS);
    assertThat(said.change().value()).isCloseTo(mean(second) - mean(first), within(1e-12));
    assertThat(said.change().u())
        .isCloseTo(Math.sqrt(squareOfU(first) + squareOfU(second)), within(1e-12));
    ConductorTrend.Alarm alarm = said.alarm().orElseThrow();
    assertThat(alarm.side()).isEqualTo(Cusum.Alarm.UP);
    assertThat(alarm.micros()).isEqualTo((before + 1) * BLOCK); // 25 deviations are enough at once
    assertThat(alarm.sinceMicros()).isEqualTo(before * BLOCK);
  }

  /** One value by itself has the uncertainty of a reading. */
  @Test
  void aStepAtTheVeryEndIsAsSureAsItsOneReading() {
    double[] y = ohms(b -> b < BLOCKS - 1 ? 1 : 3);
    ConductorTrend said = trend(y);
    assertThat(said.changeMicros()).isEqualTo((BLOCKS - 1) * BLOCK);
    double[] first = Arrays.copyOf(y, BLOCKS - 1);
    assertThat(said.change().u())
        .isCloseTo(Math.sqrt(squareOfU(first) + READING_OHMS * READING_OHMS), within(1e-12));
  }

  @Test
  void twelveBlocksAreEnoughAndElevenAreNot() {
    assertThat(trend(Arrays.copyOf(ohms(b -> 1), 12)).course()).isEqualTo(Course.STEADY);
    ConductorTrend few = trend(Arrays.copyOf(ohms(b -> 1), 11));
    assertThat(few.course()).isEqualTo(Course.TOO_FEW);
    assertThat(few.alarm()).isEmpty();
  }

  /** Without any scatter there is no deviation to count in, and no alarm. */
  @Test
  void whatNeverScattersGivesNoAlarm() {
    double[] still = new double[BLOCKS];
    Arrays.fill(still, 1);
    assertThat(trend(still).alarm()).isEmpty();
    assertThat(trend(still).course()).isEqualTo(Course.STEADY);
  }

  private static double mean(double[] values) {
    return Arrays.stream(values).average().orElseThrow();
  }

  private static double squareOfU(double[] values) {
    double mean = mean(values);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return squares / (values.length - 1) / values.length;
  }
}
