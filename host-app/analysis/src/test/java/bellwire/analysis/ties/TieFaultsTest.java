package bellwire.analysis.ties;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.ties.TieReading.Explanation;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** Several faults at once, what is said where nothing explains them, and what is refused. */
class TieFaultsTest {

  private static TieReading decode(TiePlan plan, List<Integer> opens, List<Set<Integer>> shorts) {
    int n = plan.conductors();
    return new TieDecoder(plan)
        .decode(
            new WallAndCellar(n, WallAndCellar.ties(plan), opens, shorts)
                .seenFrom(TieDecoderTest.identity(n)));
  }

  /** All two pairs of so many that share none, the first holding the lesser number. */
  private static List<List<Set<Integer>>> twoPairs(int n) {
    List<List<Set<Integer>>> all = new ArrayList<>();
    for (int a = 1; a <= n; a++) {
      for (int b = a + 1; b <= n; b++) {
        for (int c = a + 1; c <= n; c++) {
          for (int d = c + 1; d <= n; d++) {
            if (c != b && d != b) {
              all.add(List.of(Set.of(a, b), Set.of(c, d)));
            }
          }
        }
      }
    }
    return all;
  }

  @Test
  void twoShortsLeaveOpenWhatAllAssignmentsLeaveOpen() {
    for (int n = 4; n <= 5; n++) {
      TiePlan plan = n == 4 ? TiePlan.ofChains(List.of(3, 1)) : TiePlans.fewest(n);
      List<List<Set<Integer>>> faults = twoPairs(n);
      for (List<Set<Integer>> fault : faults) {
        WallAndCellar seen = new WallAndCellar(n, WallAndCellar.ties(plan), List.of(), fault);
        Map<Integer, Set<Integer>> possible = new HashMap<>();
        for (List<Set<Integer>> other : faults) {
          WallAndCellar there = new WallAndCellar(n, WallAndCellar.ties(plan), List.of(), other);
          TieDecoderTest.lay(there, seen, possible);
        }
        TieReading reading = decode(plan, List.of(), fault);
        assertThat(reading.explanation()).isEqualTo(Explanation.AS_PLANNED);
        assertThat(reading.possible()).as("n=%d %s", n, fault).isEqualTo(possible);
      }
    }
  }

  /** Chains 1 to 5 and 6 to 8, each without the tie of its first: no single one explains both. */
  @Test
  void twoBrokenOnesAreFound() {
    TieReading reading = decode(TiePlans.fewest(8), List.of(1, 6), List.of());
    assertThat(reading.explanation()).isEqualTo(Explanation.OPENS);
    assertThat(reading.opens()).isEqualTo(2);
    assertThat(reading.broken()).contains(1, 6);
    TieDecoderTest.range(8).forEach(f -> assertThat(reading.possible().get(f)).contains(f));
  }

  /** An end of each of three chains: more than two broken ones are not sought. */
  @Test
  void threeBrokenOnesAreNotExplained() {
    TiePlan plan = TiePlans.fewest(15);
    assertThat(plan.ties()).as("three chains").isEqualTo(12);
    TieReading reading = decode(plan, List.of(1, 8, 13), List.of());
    assertThat(reading.explanation()).isEqualTo(Explanation.UNEXPLAINED);
    assertThat(reading.explained()).isFalse();
    // Every port is in it, with nothing said of it.
    assertThat(reading.possible().keySet()).containsExactlyElementsOf(TieDecoderTest.range(15));
    assertThat(reading.number(3)).isZero();
    assertThat(reading.broken()).isEmpty();
    assertThat(reading.maybeBroken()).isEmpty();
  }

  /** Ports count from nought in the program. */
  @Test
  void theFirstPortIsAPort() {
    Seen seen =
        new Seen(
            List.of(0, 1, 2),
            Seen.NO_METAL,
            List.of(),
            List.of(List.of(List.of(0, 1)), List.of(List.of(1, 2))));
    TieReading reading = new TieDecoder(TiePlans.fewest(3)).decode(seen);
    assertThat(reading.explanation()).isEqualTo(Explanation.AS_PLANNED);
    assertThat(List.of(reading.number(0), reading.number(1), reading.number(2)))
        .containsExactly(1, 2, 3);
    assertThat(reading.number(7)).as("no port of it").isZero();
  }

  @Test
  void whatIsNoPortIsRefused() {
    TieDecoder decoder = new TieDecoder(TiePlans.fewest(3));
    List<List<List<Integer>>> none = List.of(List.of(), List.of());
    assertThatThrownBy(
            () ->
                decoder.decode(
                    new Seen(List.of(1, 2, 3), Seen.NO_METAL, List.of(List.of(1, 9)), none)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("port=9");
    assertThatThrownBy(
            () -> decoder.decode(new Seen(List.of(1, 2, 3, 4), Seen.NO_METAL, List.of(), none)))
        .hasMessage("ports=4 rounds=2");
    assertThatThrownBy(
            () -> decoder.decode(new Seen(List.of(1, 2, 3), 9, List.of(), List.of(List.of()))))
        .hasMessage("ports=3 rounds=1");
    for (int[] tie : new int[][] {{0, 1}, {1, -1}, {2, 2}}) {
      assertThatThrownBy(() -> new Tie(tie[0], tie[1])).hasMessage("a=" + tie[0] + " b=" + tie[1]);
    }
    for (int conductors : new int[] {0, 65}) {
      assertThatThrownBy(() -> new TiePlan(conductors, List.of()))
          .hasMessage("conductors=" + conductors);
    }
    assertThat(new TiePlan(64, List.of()).untied()).hasSize(64);
    for (Tie tie : List.of(new Tie(4, 1), new Tie(1, 4))) {
      assertThatThrownBy(() -> new TiePlan(3, List.of(List.of(tie)))).hasMessage("tie=" + tie);
    }
  }

  /** Three by three edges of a cube, and of the ring of eight whose opposites are joined. */
  @Test
  void whatLooksAlikeFromEachConductorNeedNotBeTheSame() throws Likeness.Exhausted {
    Joined cube = new Joined(8, false, 3);
    Joined ring = new Joined(8, false, 3);
    for (int v = 0; v < 8; v++) {
      for (int layer = 0; layer < 3; layer++) {
        cube.join(layer, v, v ^ 1 << layer);
      }
      ring.join(v % 2, v, (v + 1) % 8);
      ring.join(2, v, (v + 4) % 8);
    }
    assertThat(new Likeness(cube, ring).possible()).isNull();
    assertThat(new Likeness(ring, cube).possible()).isNull();
    boolean[][] turned = new Likeness(cube, cube).possible();
    assertThat(turned).isNotNull();
    for (boolean[] any : turned) {
      assertThat(any).containsOnly(true);
    }
  }

  private static SortedSet<Integer> set(Integer... of) {
    return new TreeSet<>(List.of(of));
  }

  @Test
  void ofTwoReadingsEitherMayBeTheTrueOne() {
    TieReading planned =
        new TieReading(
            Explanation.AS_PLANNED,
            0,
            new TreeMap<>(Map.of(1, set(1), 2, set(2))),
            set(),
            set(),
            set());
    TieReading open =
        new TieReading(
            Explanation.OPENS, 1, new TreeMap<>(Map.of(2, set(3))), set(3), set(2), set(2));
    TieReading worse =
        new TieReading(
            Explanation.OPENS,
            2,
            new TreeMap<>(Map.of(1, set(1))),
            set(4, 5),
            set(2, 6),
            set(2, 6));
    TieReading nothing =
        new TieReading(
            Explanation.UNEXPLAINED, 0, new TreeMap<>(Map.of(1, set())), set(), set(), set());
    TieReading either = planned.or(open);
    assertThat(either).isEqualTo(open.or(planned));
    assertThat(either.explanation()).isEqualTo(Explanation.AS_PLANNED);
    assertThat(either.opens()).isZero();
    assertThat(either.possible()).isEqualTo(Map.of(1, set(1), 2, set(2, 3)));
    assertThat(either.broken()).containsExactly(3);
    assertThat(either.maybeBroken()).containsExactly(2);
    assertThat(either.surelyBroken()).isEmpty();
    assertThat(either.number(2)).isZero();
    TieReading both = worse.or(open);
    assertThat(both.explanation()).isEqualTo(Explanation.OPENS);
    assertThat(both.opens()).isEqualTo(1);
    assertThat(both.broken()).containsExactly(3, 4, 5);
    assertThat(both.maybeBroken()).containsExactly(2, 6);
    assertThat(both.surelyBroken()).containsExactly(2);
    assertThat(nothing.or(open)).isSameAs(open);
    assertThat(open.or(nothing)).isSameAs(open);
    assertThat(nothing.or(nothing).explained()).isFalse();
  }

  /**
   * A chain of three by hand. One end broken leaves a pair that can be changed over; the middle
   * broken leaves nothing joined, and all three undecided. Of a short its two are always undecided.
   */
  @Test
  void whatAChainOfThreeLeavesUndecided() {
    Tolerance tolerance = Tolerance.of(TiePlans.fewest(3));
    assertThat(tolerance).isEqualTo(new Tolerance(7 / 3.0, 3, 2, 2));
    assertThat(tolerance.undecidedOnAverage()).isEqualTo(7 / 3.0 + 2);
    // A single one has no pair that could touch.
    assertThat(Tolerance.of(TiePlans.fewest(1)).shortWorst()).isZero();
  }

  @Test
  void aRoundAlone() {
    TiePlan plan = TiePlans.fewest(5);
    assertThat(plan.only(1).rounds()).containsExactly(plan.rounds().get(1));
    assertThat(plan.only().rounds()).isEmpty();
    assertThat(plan.only(1).untied()).containsExactly(1);
    assertThat(plan.usesMetal()).isFalse();
    assertThat(TiePlans.twoByMetal().usesMetal()).isTrue();
    assertThat(TiePlans.twoByMetal().untied()).isEmpty();
  }
}
