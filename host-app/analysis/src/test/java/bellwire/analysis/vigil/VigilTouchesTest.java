package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Who is said to touch whom, and how likely it was to be seen; by hand. */
class VigilTouchesTest {

  /**
   * Number 1 and one of 2, 4 and 6 of eight: of 1 and 2, by two codes, the least are seen. 2 and 6
   * differ in one, but they are not the pair.
   */
  @Test
  void ofAPairThatIsNotKnownTheLeastChanceOfThoseItMayBeCounts() {
    Touch touch = new Touch(0b1, 0b101010, 1000, 2000, 2000, 3000, true, false, false);
    VigilSummary summary =
        VigilSummary.ofTouches(
            VigilSummaryTest.watch(VigilProgram.TOUCH, 0xFF, VigilSummaryTest.HOUR),
            List.of(touch),
            VigilSummaryTest.LATCH);
    ConductorSummary one = summary.conductors().get(0);
    assertThat(one.subject()).isEqualTo(new Subject(Happening.TOUCH, 0b1, 0b101010));
    assertThat(one.assumedMicros()).isEqualTo(2);
    TouchChance chance = new TouchChance(9, 1000, 200, 2);
    // Of 1 and 2, 4 or 6: two codes, two codes, three codes that tell them apart.
    assertThat(chance.ofPair(1, 2, 2)).isCloseTo(2 * 798 / 4000.0, within(1e-12));
    assertThat(chance.ofPair(1, 6, 2)).isCloseTo(3 * 798 / 4000.0, within(1e-12));
    assertThat(one.chanceOfSeeing()).isCloseTo(2 * 798 / 4000.0, within(1e-12));
    assertThat(summary.chanceOfSeeing(2)).isCloseTo(chance.ofAnyPair(2), within(1e-12));
    assertThat(summary.incidents().events()).isEqualTo(1);
    // Of longer ones the middle length.
    List<Touch> held = new ArrayList<>();
    for (long length : new long[] {100, 700, 300}) {
      long at = 1_000_000 * length;
      held.add(new Touch(0b11, 0, at - 10, at, at + length, at + length + 10, false, false, false));
    }
    assertThat(
            VigilSummary.ofTouches(
                    VigilSummaryTest.watch(VigilProgram.TOUCH, 0xFF, VigilSummaryTest.HOUR),
                    held,
                    VigilSummaryTest.LATCH)
                .conductors()
                .get(0)
                .assumedMicros())
        .isEqualTo(300);
  }

  /** M is held in every code: 1 and M differ in one, 1 and 4 in two. Two that are known in one. */
  @Test
  void ofAPairWithMetalOrOfAKnotTheLeastChanceCounts() {
    assertThat(chance(new Touch(0b1, 1 << 16 | 0b1000, 0, 1, 1, 2, true, false, false)))
        .isCloseTo(798 / 4000.0, within(1e-12));
    // 2 and 3 are both known, and 4 touches one of them: the codes that tell 4 from it.
    assertThat(chance(new Touch(0b110, 0b1000, 0, 1, 1, 2, true, false, false)))
        .isCloseTo(2 * 798 / 4000.0, within(1e-12));
  }

  private static double chance(Touch touch) {
    return VigilSummary.ofTouches(
            VigilSummaryTest.watch(VigilProgram.TOUCH, 0xFF, VigilSummaryTest.HOUR),
            List.of(touch),
            VigilSummaryTest.LATCH)
        .conductors()
        .get(0)
        .chanceOfSeeing();
  }

  /** Two touches of a known pair, one that may be that pair or another, a knot of three. */
  @Test
  void touchesAreExplainedByTheFewestPairs() {
    Touch known = new Touch(0b110, 0, 0, 1, 2, 3, false, false, false);
    Touch maybe = new Touch(0b10, 0b10100, 10, 11, 12, 13, false, false, false);
    Touch knot = new Touch(0b111, 0, 20, 21, 22, 23, false, false, false);
    Touch knotted = new Touch(0b11, 0b11000, 30, 31, 32, 33, false, false, false);
    assertThat(TouchPairs.of(List.of(known, maybe, knot, knotted)))
        .isEqualTo(
            Map.of(
                new Subject(Happening.TOUCH, 0b110, 0), List.of(known, maybe),
                new Subject(Happening.TOUCH, 0b111, 0), List.of(knot),
                new Subject(Happening.TOUCH, 0b11, 0b11000), List.of(knotted)));
    assertThat(TouchPairs.of(List.of(maybe)))
        .isEqualTo(Map.of(new Subject(Happening.TOUCH, 0b10, 0b10100), List.of(maybe)));
    assertThat(known.decided()).isTrue();
    assertThat(maybe.decided()).isFalse();
    assertThat(knot.decided()).isTrue();
    assertThat(knotted.decided()).isFalse();
    assertThat(new Touch(0b11, 0b100, 0, 1, 2, 3, false, false, false).decided()).isFalse();
  }
}
