package bellwire.analysis.rules;

import static bellwire.analysis.logic.Verdict.BROKEN;
import static bellwire.analysis.logic.Verdict.KEPT;
import static bellwire.analysis.logic.Verdict.UNDECIDED;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Verdict;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** How occasions that worlds tell differently are counted, and which of them are kept. */
class TallyTest {
  private final Tally tally = new Tally();

  private static Occasion at(long earliest, long latest, Verdict verdict, long margin) {
    return new Occasion(
        earliest, latest, verdict, new Span(margin + 100, margin + 100), new Span(margin, margin));
  }

  /** Settles for as many worlds, in which the rule was kept since the last time, or was not. */
  private void settle(boolean... keeps) {
    tally.settle(
        IntStream.range(0, keeps.length)
            .mapToObj(
                i -> {
                  Hypothesis world = new Hypothesis(0);
                  world.keepsLately = keeps[i];
                  return world;
                })
            .toList());
  }

  private List<Verdict> told() {
    return tally.telling().stream().map(Occasion::verdict).toList();
  }

  @Test
  void whatIsBrokenInSomeWorldsOnlyIsUndecided() {
    tally.add(at(10, 20, BROKEN, -3));
    settle(true, false);
    assertThat(tally.count()).isEqualTo(1);
    assertThat(tally.telling())
        .containsExactly(new Occasion(10, 20, UNDECIDED, new Span(97, 97), new Span(-3, -3)));
    tally.add(at(30, 40, BROKEN, -2));
    settle(false, false);
    assertThat(told()).containsExactly(BROKEN, UNDECIDED);
  }

  /** Each world broke it at one of several occasions: the first is said to be it. */
  @Test
  void whatIsBrokenInAllWorldsIsToldOnce() {
    tally.add(at(10, 20, UNDECIDED, -1));
    tally.add(at(30, 40, UNDECIDED, -1));
    tally.add(at(50, 60, KEPT, 5));
    settle(false, false);
    assertThat(tally.telling())
        .extracting(o -> o.verdict() + " " + o.earliestMicros())
        .containsExactly("BROKEN 10", "UNDECIDED 30", "KEPT 50");
    // Where one is told broken already, no other is made so.
    tally.add(at(70, 80, UNDECIDED, -1));
    tally.add(at(90, 95, BROKEN, -7));
    settle(false);
    assertThat(tally.telling())
        .extracting(o -> o.verdict() + " " + o.earliestMicros())
        .containsExactly("BROKEN 90", "BROKEN 10", "UNDECIDED 30", "UNDECIDED 70", "KEPT 50");
    assertThat(tally.count()).isEqualTo(5);
  }

  /** What overlaps is one occasion that the worlds tell differently: as wide as all of them. */
  @Test
  void occasionsThatOverlapAreOne() {
    tally.add(at(10, 20, KEPT, 4));
    tally.add(at(20, 30, KEPT, 2));
    tally.add(at(31, 40, KEPT, 1));
    settle(true);
    assertThat(tally.count()).isEqualTo(2);
    assertThat(tally.telling())
        .containsExactly(
            at(31, 40, KEPT, 1), new Occasion(10, 30, KEPT, new Span(102, 104), new Span(2, 4)));
    tally.add(at(50, 60, KEPT, 4));
    tally.add(at(55, 58, BROKEN, -4));
    settle(true);
    assertThat(tally.telling().get(0))
        .isEqualTo(new Occasion(50, 60, UNDECIDED, new Span(96, 104), new Span(-4, 4)));
    tally.add(new Occasion(70, 80, KEPT, null, null));
    tally.add(at(75, 80, KEPT, 1));
    settle(true);
    assertThat(tally.telling()).contains(new Occasion(70, 80, KEPT, null, null));
  }

  /** Eight are kept, the worst first; of equal ones the earliest. */
  @Test
  void theEightWorstAreKept() {
    for (int i = 0; i < 12; i++) {
      tally.add(at(100 * i, 100 * i + 1, KEPT, 12 - i / 2));
      settle(true);
    }
    assertThat(tally.count()).isEqualTo(12);
    assertThat(tally.held()).isEqualTo(8);
    assertThat(tally.telling())
        .extracting(Occasion::earliestMicros)
        .containsExactly(1000L, 1100L, 800L, 900L, 600L, 700L, 400L, 500L);
    tally.add(at(5000, 5001, KEPT, 10));
    assertThat(tally.held()).as("one is not settled").isEqualTo(9);
    settle(true);
    assertThat(tally.telling().get(7).earliestMicros()).isEqualTo(500);
    tally.add(at(6000, 6001, UNDECIDED, 10));
    settle(true);
    assertThat(tally.telling().get(0).earliestMicros()).isEqualTo(6000);
    assertThat(tally.telling().get(7).earliestMicros()).isEqualTo(400);
    assertThat(tally.count()).isEqualTo(14);
  }

  /** More than sixteen in doubt at once are not told apart. */
  @Test
  void theLastOfMoreThanSixteenInDoubtAreOne() {
    for (int i = 0; i < 20; i++) {
      tally.add(at(100 * i, 100 * i + 1, KEPT, 20 + i));
    }
    assertThat(tally.held()).isEqualTo(16);
    Tally copy = tally.copy();
    settle(true);
    assertThat(tally.count()).isEqualTo(16);
    assertThat(copy.count()).as("a copy goes its own way").isZero();
    assertThat(copy.held()).isEqualTo(16);
  }

  @Test
  void whichCameFirstDoesNotMatter() {
    tally.add(at(20, 30, KEPT, 2));
    tally.add(at(10, 20, KEPT, 4));
    tally.add(at(40, 50, KEPT, 1));
    tally.add(new Occasion(45, 60, KEPT, null, null));
    settle(true);
    assertThat(tally.telling())
        .containsExactly(
            new Occasion(10, 30, KEPT, new Span(102, 104), new Span(2, 4)),
            new Occasion(40, 60, KEPT, null, null));
  }
}
