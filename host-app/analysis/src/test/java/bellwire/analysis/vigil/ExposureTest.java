package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Time in which something could be seen, and what lies near a person's marks; by hand. */
class ExposureTest {
  private static final long SECOND = 1_000_000;

  private static Unwatched missing(long from, long to) {
    return new Unwatched(from, to, "link");
  }

  /** Of 0 to 100 are seen 0 to 10, 30 to 50 and 60 to 90. */
  private final Exposure some =
      Exposure.without(
          0, 100, List.of(missing(50, 60), missing(15, 30), missing(10, 20), missing(90, 200)));

  @Test
  void whatIsMissingIsTakenOutOnce() {
    assertThat(some.micros()).isEqualTo(60);
    assertThat(some.seconds()).isEqualTo(60e-6);
    long[][] upTo = {
      {-5, 0},
      {0, 0},
      {5, 5},
      {10, 10},
      {25, 10},
      {30, 10},
      {40, 20},
      {55, 30},
      {75, 45},
      {1000, 60}
    };
    for (long[] each : upTo) {
      assertThat(some.upTo(each[0])).as("micros=" + each[0]).isEqualTo(each[1]);
    }
    assertThat(Exposure.without(0, 100, List.of(missing(-10, 5), missing(80, 100))).micros())
        .isEqualTo(75);
    assertThat(Exposure.without(0, 100, List.of(missing(0, 100))).micros()).isZero();
    assertThat(Exposure.without(0, 100, List.of(missing(150, 160))).micros()).isEqualTo(100);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> missing(6, 5))
        .withMessage("fromMicros=6 toMicros=5");
    assertThat(missing(5, 5).toMicros()).isEqualTo(5);
  }

  /** Windows of 10 from 5, 8 and 85 are 5 to 18 and 85 to 95: seen of them 5 and 5. */
  @Test
  void windowsThatOverlapCountOnce() {
    assertThat(some.within(new long[] {85, 5, 8}, 10)).isEqualTo(10);
    assertThat(some.within(new long[] {5, 5}, 10)).isEqualTo(5);
    assertThat(some.within(new long[] {0}, 100)).isEqualTo(60);
    assertThat(some.within(new long[0], 10)).isZero();
  }

  /** A hundredth may be missing in the longest run, no more. */
  @Test
  void anUnbrokenWatchMissesAHundredthAtMost() {
    assertThat(unbroken(missing(500, 510))).containsExactly(0, 1_000);
    assertThat(unbroken(missing(500, 511))).containsExactly(0, 500);
    assertThat(unbroken(missing(400, 411))).containsExactly(411, 1_000);
    assertThat(unbroken(missing(300, 305), missing(700, 705))).containsExactly(0, 1_000);
    assertThat(unbroken(missing(300, 306), missing(700, 705))).containsExactly(0, 700);
    assertThat(unbroken(missing(0, 1_000))).containsExactly(0, 0);
  }

  private static long[] unbroken(Unwatched... missing) {
    return Exposure.without(0, 1_000, List.of(missing)).unbroken();
  }

  /** A mark reaches 2 s far, its own moment included. */
  @Test
  void anEventFollowsAMarkWithinTwoSeconds() {
    Exposure hour = Exposure.without(0, 3_600 * SECOND, List.of());
    long[] marks = {10 * SECOND};
    long[][] near = {
      {10 * SECOND - 1, 0}, {10 * SECOND, 1}, {12 * SECOND - 1, 1}, {12 * SECOND, 0}
    };
    for (long[] each : near) {
      MarkEffect effect = MarkEffect.of(new long[] {each[0]}, marks, hour);
      assertThat(effect.near()).as("micros=" + each[0]).isEqualTo(each[1]);
      assertThat(effect.chance()).isCloseTo(each[1] == 1 ? 2 / 3_600.0 : 1, within(1e-12));
      assertThat(effect.expected()).isCloseTo(2 / 3_600.0, within(1e-12));
      assertThat(effect.follows()).isEqualTo(each[1] == 1);
    }
  }

  /** Two of four in a five hundredth of the time: 1 - (1 - p)^4 - 4 p (1 - p)^3. */
  @Test
  void marksExplainWhatAtLeastHalfOfTheEventsFollow() {
    Exposure thousand = Exposure.without(0, 1_000 * SECOND, List.of());
    long[] marks = {10 * SECOND};
    long[] four = {10 * SECOND, 11 * SECOND, 400 * SECOND, 500 * SECOND};
    MarkEffect half = MarkEffect.of(four, marks, thousand);
    double p = 0.002;
    assertThat(half.chance())
        .isCloseTo(1 - Math.pow(1 - p, 4) - 4 * p * Math.pow(1 - p, 3), within(1e-12));
    assertThat(half.explains()).isTrue();
    long[] five = {10 * SECOND, 11 * SECOND, 400 * SECOND, 500 * SECOND, 600 * SECOND};
    MarkEffect fewer = MarkEffect.of(five, marks, thousand);
    assertThat(fewer.follows()).isTrue();
    assertThat(fewer.explains()).isFalse();
    assertThat(fewer.marks()).isEqualTo(1);
    assertThat(fewer.events()).isEqualTo(5);
  }

  @Test
  void withNothingSeenNothingIsExpected() {
    Exposure nothing = Exposure.without(0, 10, List.of(missing(0, 10)));
    MarkEffect effect = MarkEffect.of(new long[0], new long[] {3}, nothing);
    assertThat(effect.expected()).isZero();
    assertThat(effect.chance()).isEqualTo(1);
  }
}
