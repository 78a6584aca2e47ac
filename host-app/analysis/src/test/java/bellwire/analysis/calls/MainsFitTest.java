package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Moments that are given exactly, so that what is found of them can be said beforehand. */
class MainsFitTest {
  private static final int RECENT = 12;

  /** Samples half a millisecond apart: a middle is known to ± 0.5 ms. */
  private static void add(MainsFit fit, double middle, double length) {
    long before = Math.round(middle - length / 2) - 250;
    long after = Math.round(middle + length / 2) + 250;
    fit.add(before, before + 500, after - 500, after);
  }

  private static MainsFit fit(int count, double halfPeriod) {
    MainsFit fit = new MainsFit();
    for (int i = 0; i < count; i++) {
      add(fit, 7_000 + i * halfPeriod, 2_000);
    }
    return fit;
  }

  /** Supplies of 45 to 65 Hz are mains, docs/theory.md (53); what is off by 1 % more is none. */
  @Test
  void mainsAreFrom45To65Hertz() {
    for (double hertz : new double[] {45.01, 47, 50, 55.3, 60, 62, 64.99}) {
      MainsFit fit = fit(RECENT, 5e5 / hertz);
      assertThat(fit.regular(RECENT)).as("hertz=" + hertz).isTrue();
      // Middles are rounded to half a microsecond.
      assertThat(fit.halfPeriodMicros()).as("hertz=" + hertz).isCloseTo(5e5 / hertz, within(0.2));
    }
    for (double hertz : new double[] {40, 44.5, 65.6, 70}) {
      MainsFit fit = fit(RECENT, 5e5 / hertz);
      assertThat(fit.regular(RECENT)).as("hertz=" + hertz).isFalse();
      assertThat(fit.halfPeriodMicros()).as("hertz=" + hertz).isZero();
    }
  }

  @Test
  void fourMomentsSayNothing() {
    assertThat(fit(4, 10_000).regular(RECENT)).isFalse();
    assertThat(fit(5, 10_000).regular(RECENT)).isTrue();
    assertThat(fit(40, 10_000).regular(4)).isFalse();
    assertThat(new MainsFit().regular(RECENT)).isFalse();
  }

  /** A contact that bounces adds a stray gap: one of twelve is let pass, two are not. */
  @Test
  void oneStrayInTwelveIsLetPass() {
    for (double half : new double[] {8_333.3, 10_000}) {
      for (int stray = 0; stray < RECENT; stray++) {
        MainsFit one = strays(half, stray, stray);
        assertThat(one.regular(RECENT)).as("stray=" + stray).isTrue();
        assertThat(one.halfPeriodMicros()).as("stray=" + stray).isCloseTo(half, within(0.2));
        MainsFit two = strays(half, stray, (stray + 5) % RECENT);
        assertThat(two.regular(RECENT)).as("stray=" + stray).isFalse();
      }
    }
  }

  private static MainsFit strays(double half, int first, int second) {
    MainsFit fit = new MainsFit();
    for (int i = 0; i < RECENT; i++) {
      double off = i == first || i == second ? 3_000 : 0;
      add(fit, 7_000 + i * half + off, 2_000);
    }
    return fit;
  }

  /**
   * A middle may be off by its sampling, here ± 500, and by 350 more. The pattern of signs is even,
   * its mean nought: the line fitted goes through the middle, and each is off by just so much.
   */
  @Test
  void momentsMayBeOffByTheirSamplingAndALittle() {
    String signs = "+--++--++--+";
    for (int off : new int[] {0, 400, 848, 852, 1_200}) {
      MainsFit fit = new MainsFit();
      for (int i = 0; i < RECENT; i++) {
        add(fit, 7_000 + i * 10_000 + (signs.charAt(i) == '+' ? off : -off), 2_000);
      }
      assertThat(fit.regular(RECENT)).as("off=" + off).isEqualTo(off < 850);
    }
  }

  /** Of a half wave every second moment is missing; the half period is still the mains'. */
  @Test
  void aHalfWaveHasEverySecond() {
    MainsFit half = fit(RECENT, 2 * 8_333.3);
    assertThat(half.regular(RECENT)).isTrue();
    assertThat(half.halfPeriodMicros()).isCloseTo(8_333.3, within(0.2));
    assertThat(half.everySecond(RECENT)).isTrue();
    add(half, 7_000 + 23 * 8_333.3, 2_000);
    assertThat(half.regular(RECENT)).isTrue();
    assertThat(half.everySecond(RECENT)).isFalse();
    MainsFit whole = fit(RECENT, 8_333.3);
    assertThat(whole.regular(RECENT)).isTrue();
    assertThat(whole.everySecond(RECENT)).isFalse();
  }

  /** Only the last ones count: of lengths, of time, of what is every second. */
  @Test
  void sharesAndLengthsAreOfTheLastOnes() {
    MainsFit fit = new MainsFit();
    double[] lengths = {9_000, 9_000, 1_000, 5_000, 3_000, 2_000, 4_000};
    for (int i = 0; i < lengths.length; i++) {
      add(fit, 7_000 + i * 10_000, lengths[i]);
    }
    assertThat(fit.regular(5)).isTrue();
    assertThat(fit.medianLength(5)).isCloseTo(0.3, within(1e-4));
    // Between the middles of the first and the last of them lie 40 ms; the first one's is before.
    assertThat(fit.share(5)).isCloseTo((5_000 + 3_000 + 2_000 + 4_000) / 40_000.0, within(1e-4));
    assertThat(fit.share(100)).isCloseTo(24_000 / 60_000.0, within(1e-4));
    assertThat(fit.medianLength(100)).isCloseTo(0.4, within(1e-4));
  }

  @Test
  void sixtyFourAreKept() {
    MainsFit fit = new MainsFit();
    assertThat(fit.newestMicros()).isLessThan(-1_000_000_000_000_000L);
    for (int i = 0; i < 100; i++) {
      add(fit, 7_000 + i * 10_000, 2_000);
      assertThat(fit.count()).isEqualTo(Math.min(64, i + 1));
      assertThat(fit.newestMicros()).isEqualTo(7_000 + i * 10_000);
    }
    assertThat(fit.oldestMicros(64)).isEqualTo(7_000 + 36 * 10_000);
    assertThat(fit.oldestMicros(1_000)).isEqualTo(7_000 + 36 * 10_000);
    assertThat(fit.oldestMicros(RECENT)).isEqualTo(7_000 + 88 * 10_000);
    assertThat(fit.regular(64)).isTrue();
    fit.clear();
    assertThat(fit.count()).isZero();
    assertThat(fit.halfPeriodMicros()).isZero();
    add(fit, 9_000_000, 2_000);
    assertThat(fit.oldestMicros(RECENT)).isEqualTo(9_000_000);
  }

  /**
   * Once found a period is gone on from; moments that do not keep to it any more put it in doubt.
   */
  @Test
  void aPeriodThatIsLeftIsSoughtAnew() {
    MainsFit fit = fit(RECENT, 10_000);
    assertThat(fit.regular(RECENT)).isTrue();
    for (int i = 0; i < RECENT; i++) {
      add(fit, 200_000 + i * 8_000, 2_000);
    }
    fit.regular(RECENT);
    assertThat(fit.regular(RECENT)).isTrue();
    assertThat(fit.halfPeriodMicros()).isCloseTo(8_000, within(0.2));
  }
}
