package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * What falls and stretches of ones are told as, docs/theory.md (58), at 60 Hz: touches are ones of
 * less than 0.93 half periods, 7.75 ms, that come within 1.4 of them, 11.666 ms, of a longer
 * stretch's edge.
 */
class EpisodeTest implements Episode.Teller {
  private static final double HALF = 8_333;
  private static final int NEAR = 11_666;

  private final List<String> told = new ArrayList<>();
  private final Episode episode = new Episode(this);

  @Override
  public void tell(Level level, long earliestMicros, long latestMicros) {
    told.add(level + " " + earliestMicros + " " + latestMicros);
  }

  @Override
  public void odd(long micros) {
    told.add("odd " + micros);
  }

  /** Ones of so long from a moment on, known to be there from 100 before to 10 after. */
  private static Stretch ones(long from, long length) {
    Stretch stretch = new Stretch(from - 100, from + 10, from);
    stretch.run(from, from + length);
    stretch.fallEarliest = from + length;
    stretch.fallLatest = from + length + 500;
    return stretch;
  }

  /** With gaps a half period apart between equal runs. */
  private static Stretch call(long from, int gaps, long run) {
    Stretch stretch = new Stretch(from - 100, from + 10, from);
    long at = from;
    for (int i = 0; i <= gaps; i++) {
      stretch.run(at, at + run);
      if (i < gaps) {
        stretch.gap(at + run, at + 8_333);
        at += 8_333;
      }
    }
    stretch.fallEarliest = at + run;
    stretch.fallLatest = at + run + 500;
    return stretch;
  }

  @Test
  void aFallAlone() {
    episode.halfPeriod(HALF, true);
    assertThat(episode.fallen()).isFalse();
    episode.fell(1_000, 5_000, 900);
    assertThat(episode.fallen()).isTrue();
    assertThat(episode.fallEarliest()).isEqualTo(1_000);
    assertThat(episode.tell(null)).isEqualTo(AcContact.NEVER);
    assertThat(told).containsExactly("OFF 1000 5000");
    assertThat(episode.fallen()).isFalse();
    assertThat(episode.tell(null)).isEqualTo(AcContact.NEVER);
    assertThat(told).as("told once").hasSize(1);
  }

  @Test
  void aTouchCloseBehindAFallLiesInsideIt() {
    episode.halfPeriod(HALF, true);
    episode.fell(1_000, 5_000, 900);
    episode.add(ones(900 + NEAR, 2_000));
    assertThat(episode.tell(null)).isEqualTo(AcContact.NEVER);
    assertThat(told).containsExactly("OFF 1000 " + (900 + NEAR + 2_500));
  }

  /** A chain of them as well: each lies near the one before. */
  @Test
  void aTouchCloseBehindATouchLiesInsideTheFallToo() {
    episode.halfPeriod(HALF, true);
    episode.fell(1_000, 5_000, 900);
    episode.add(ones(8_000, 2_000));
    episode.add(ones(10_000 + NEAR, 2_000));
    episode.tell(null);
    assertThat(told).containsExactly("OFF 1000 " + (10_000 + NEAR + 2_500));
  }

  @Test
  void aTouchByItselfIsNoCallAndNotNothing() {
    episode.halfPeriod(HALF, true);
    episode.fell(1_000, 5_000, 900);
    long from = 900 + NEAR + 1;
    episode.add(ones(from, 2_000));
    episode.tell(null);
    assertThat(told)
        .containsExactly(
            "OFF 1000 5000",
            "UNKNOWN " + (from - 100) + " " + (from - 100),
            "odd " + from,
            "OFF " + (from + 2_000) + " " + (from + 2_500));
  }

  @Test
  void onesThatLastTooLongForACallAreNoTouch() {
    episode.halfPeriod(HALF, true);
    episode.fell(1_000, 5_000, 900);
    episode.add(ones(8_000, 7_750));
    episode.tell(null);
    assertThat(told)
        .containsExactly("OFF 1000 5000", "UNKNOWN 7900 7900", "odd 8000", "OFF 15750 16250");
    told.clear();
    episode.fell(1_000, 5_000, 900);
    episode.add(ones(8_000, 7_749));
    episode.tell(null);
    assertThat(told).containsExactly("OFF 1000 16249");
  }

  @Test
  void aCallHasItsGaps() {
    episode.halfPeriod(HALF, true);
    episode.add(call(20_000, 1, 6_500));
    episode.add(call(80_000, 4, 6_500));
    episode.tell(null);
    assertThat(told)
        .containsExactly(
            "ON 19900 20010", "OFF 34833 35333", "ON 79900 80010", "OFF 119832 120332");
  }

  @Test
  void aTouchBeforeACallBelongsToItsBeginning() {
    episode.halfPeriod(HALF, true);
    episode.add(ones(20_000, 1_000));
    episode.add(call(21_000 + NEAR, 2, 6_500));
    episode.tell(null);
    assertThat(told).startsWith("ON 19900 " + (21_000 + NEAR + 10)).hasSize(2);
    told.clear();
    episode.add(ones(20_000, 1_000));
    episode.add(call(21_000 + NEAR + 1, 2, 6_500));
    episode.tell(null);
    assertThat(told).startsWith("UNKNOWN 19900 19900", "odd 20000", "OFF 21000 21500").hasSize(5);
  }

  @Test
  void whatGoesOnBeginsWithTheTouchesBeforeIt() {
    episode.halfPeriod(HALF, true);
    Stretch current = new Stretch(29_900, 30_010, 30_000);
    assertThat(episode.tell(current)).isEqualTo(29_900);
    episode.add(ones(20_000, 1_000));
    assertThat(episode.beganLatest(current)).isEqualTo(20_010);
    assertThat(episode.tell(current)).isEqualTo(19_900);
    assertThat(told).isEmpty();
    episode.fell(1_000, 5_000, 900);
    assertThat(episode.beganLatest(current)).isEqualTo(5_000);
    episode.clear();
    assertThat(episode.beganLatest(current)).isEqualTo(30_010);
  }

  /** A contact whose mains are not known yet has to show three gaps, one that is known one. */
  @Test
  void aLeadNotSeenYetHasToShowThreeGaps() {
    for (int gaps = 0; gaps < 5; gaps++) {
      Stretch stretch = call(20_000, gaps, 6_500);
      assertThat(stretch.likeCall(HALF, true)).as("gaps=" + gaps).isEqualTo(gaps >= 1);
      assertThat(stretch.likeCall(HALF, false)).as("gaps=" + gaps).isEqualTo(gaps >= 3);
    }
  }

  /** One gap of several may have gone by between two samples, and leave a run twice as long. */
  @Test
  void oneGapMayHaveGoneByUnseen() {
    for (int gaps = 1; gaps < 5; gaps++) {
      Stretch once = call(20_000, gaps, 6_500);
      once.run(100_000, 114_000);
      assertThat(once.likeCall(HALF, true)).as("gaps=" + gaps).isEqualTo(gaps >= 3);
      once.run(120_000, 134_000);
      assertThat(once.likeCall(HALF, true)).as("twice, gaps=" + gaps).isFalse();
    }
    assertThat(call(20_000, 4, 7_749).likeCall(HALF, true)).isTrue();
    assertThat(call(20_000, 4, 7_750).likeCall(HALF, true)).isFalse();
  }

  /** Gaps follow each other in a half period; sooner than 0.7 of the shortest, 5.38 ms, none do. */
  @Test
  void gapsThatComeTooFastAreNoMains() {
    for (int apart : new int[] {3_000, 5_384, 5_385, 8_000}) {
      Stretch stretch = new Stretch(0, 0, 0);
      for (int i = 0; i < 6; i++) {
        stretch.gap(i * apart, i * apart + 1_000);
        stretch.run(i * apart + 1_000, (i + 1) * apart);
      }
      assertThat(stretch.likeCall(HALF, true)).as("apart=" + apart).isEqualTo(apart > 5_384);
    }
    // Half of the gaps may: a bounce adds one.
    Stretch stretch = new Stretch(0, 0, 0);
    for (int at : new int[] {0, 2_000, 8_000, 10_000, 16_000}) {
      stretch.gap(at, at + 1_000);
    }
    assertThat(stretch.likeCall(HALF, true)).isTrue();
    stretch.gap(18_000, 19_000);
    assertThat(stretch.likeCall(HALF, true)).as("three of six").isTrue();
    stretch.gap(20_000, 21_000);
    assertThat(stretch.likeCall(HALF, true)).as("four of seven").isFalse();
  }
}
