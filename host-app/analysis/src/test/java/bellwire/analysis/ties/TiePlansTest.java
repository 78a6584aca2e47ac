package bellwire.analysis.ties;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** The plans against all others there are, and what faults leave of them. */
class TiePlansTest {

  /** All pairs of matchings of n conductors, whatever chains and cycles they make. */
  private static List<TiePlan> everyPlan(int n) {
    List<List<Tie>> matchings = new ArrayList<>();
    match(1, n, new HashSet<>(), new ArrayList<>(), matchings);
    List<TiePlan> plans = new ArrayList<>();
    for (List<Tie> first : matchings) {
      for (List<Tie> second : matchings) {
        plans.add(new TiePlan(n, List.of(first, second)));
      }
    }
    return plans;
  }

  private static void match(
      int from, int n, Set<Integer> used, List<Tie> chosen, List<List<Tie>> matchings) {
    if (from > n) {
      matchings.add(List.copyOf(chosen));
      return;
    }
    match(from + 1, n, used, chosen, matchings);
    for (int b = from + 1; b <= n && !used.contains(from); b++) {
      if (used.add(b)) {
        chosen.add(new Tie(from, b));
        match(from + 1, n, used, chosen, matchings);
        chosen.remove(chosen.size() - 1);
        used.remove(b);
      }
    }
  }

  private static boolean tellsAll(TiePlan plan) {
    TieDecoder decoder = new TieDecoder(plan);
    TieReading reading = decoder.decode(Tolerance.seen(decoder, plan, List.of(), List.of()));
    return IntStream.rangeClosed(1, plan.conductors()).allMatch(f -> reading.number(f) == f);
  }

  /** The theorem and the count of ties, by going through every pair of rounds. */
  @Test
  void noTwoRoundsOfPairsIdentifyAllWithFewerTies() {
    assertThat(everyPlan(2)).hasSize(4).noneMatch(TiePlansTest::tellsAll);
    for (int n = 3; n <= 6; n++) {
      int fewest =
          everyPlan(n).stream()
              .filter(TiePlansTest::tellsAll)
              .mapToInt(TiePlan::ties)
              .min()
              .orElseThrow();
      TiePlan plan = TiePlans.fewest(n);
      assertThat(plan.conductors()).isEqualTo(n);
      assertThat(plan.ties()).as("n=" + n).isEqualTo(fewest);
      assertThat(tellsAll(plan)).isTrue();
    }
  }

  /** Different odd numbers with this sum, largest first: all plans that identify everyone. */
  private static List<List<Integer>> chains(int sum, int below) {
    if (sum == 0) {
      return List.of(List.of());
    }
    List<List<Integer>> all = new ArrayList<>();
    for (int k = Math.min(sum, below - 1); k > 0; k--) {
      if (k % 2 == 1) {
        for (List<Integer> rest : chains(sum - k, k)) {
          List<Integer> one = new ArrayList<>(List.of(k));
          one.addAll(rest);
          all.add(one);
        }
      }
    }
    return all;
  }

  /**
   * Of all plans that identify everyone, with any number of ties, none leaves fewer conductors
   * undecided with one fault than the plan of fewest ties that is offered.
   */
  @Test
  void theOfferedPlanLeavesTheFewestUndecided() {
    System.out.println("   two rounds of pairs: conductors with more than one possible far number");
    System.out.println("                                  one open        one short       untied");
    System.out.println("  n  chains      ties a round   mean  worst     mean  worst");
    for (int n = 3; n <= 16; n++) {
      TiePlan offered = TiePlans.fewest(n);
      Tolerance best = Tolerance.of(offered);
      for (List<Integer> lengths : chains(n, n + 1)) {
        TiePlan other = TiePlan.ofChains(lengths);
        assertThat(other.ties()).isGreaterThanOrEqualTo(offered.ties());
        Tolerance tolerance = Tolerance.of(other);
        assertThat(best.undecidedOnAverage())
            .as("n=%d %s", n, lengths)
            .isLessThanOrEqualTo(tolerance.undecidedOnAverage());
        boolean second = TiePlans.everyTied(n).filter(other::equals).isPresent();
        if (other.equals(offered) || second) {
          print(lengths, other, tolerance);
        }
      }
    }
  }

  private static void print(List<Integer> lengths, TiePlan plan, Tolerance tolerance) {
    System.out.printf(
        "%3d  %-10s %4d + %-4d %10.2f %5d %9.2f %5d %9s%n",
        plan.conductors(),
        lengths.toString().replaceAll("[\\[\\] ]", "").replace(',', '+'),
        plan.rounds().get(0).size(),
        plan.rounds().get(1).size(),
        tolerance.openMean(),
        tolerance.openWorst(),
        tolerance.shortMean(),
        tolerance.shortWorst(),
        plan.untied().isEmpty() ? "-" : plan.untied().toString());
  }

  @Test
  void everyTiedLeavesNobodyOutWhereThatIsPossible() {
    for (int n = 3; n <= TiePlan.MOST_CONDUCTORS; n++) {
      List<List<Integer>> possible =
          n > 30 ? List.of() : chains(n, n + 1).stream().filter(c -> !c.contains(1)).toList();
      if (TiePlans.everyTied(n).isEmpty()) {
        assertThat(n).isIn(4, 6);
        assertThat(possible).isEmpty();
        continue;
      }
      TiePlan plan = TiePlans.everyTied(n).orElseThrow();
      assertThat(plan.conductors()).isEqualTo(n);
      assertThat(plan.untied()).isEmpty();
      assertThat(tellsAll(plan)).as("n=" + n).isTrue();
      int mostChains = possible.stream().mapToInt(List::size).max().orElse(n - plan.ties());
      assertThat(n - mostChains).as("n=" + n).isEqualTo(plan.ties());
    }
  }

  /** For many conductors the number of ties by the formula of docs/ties.md. */
  @Test
  void tiesAreConductorsLessTheMostChains() {
    for (int n = 3; n <= TiePlan.MOST_CONDUCTORS; n++) {
      int m = n;
      while (m * m > n || (m - n) % 2 != 0) {
        m--;
      }
      assertThat(TiePlans.fewest(n).ties()).isEqualTo(n - m);
    }
  }

  @Test
  void forTwoThereIsNoPlan() {
    assertThatThrownBy(() -> TiePlans.fewest(2)).hasMessageContaining("conductors=2");
    assertThatThrownBy(() -> TiePlans.fewest(65)).hasMessageContaining("conductors=65");
    assertThat(tellsAll(TiePlans.twoByMetal())).isTrue();
  }

  /**
   * One end of one clip on a conductor that is free in that round: noticed where what is joined is
   * not as planned. Of three conductors two of the four ways make a chain of three again.
   */
  @Test
  void wrongClipsAreNoticedMoreOrLess() {
    System.out.println("  n  one clip's end on a wrong conductor   noticed");
    for (int n = 3; n <= 16; n++) {
      TiePlan plan = TiePlans.fewest(n);
      int ways = 0;
      int noticed = 0;
      for (TiePlan wrong : wrongClips(plan)) {
        ways++;
        TieDecoder asMade = new TieDecoder(wrong);
        Seen seen = Tolerance.seen(asMade, wrong, List.of(), List.of());
        TieReading reading = new TieDecoder(plan).decode(seen);
        noticed += reading.explanation() == TieReading.Explanation.AS_PLANNED ? 0 : 1;
      }
      System.out.printf("%3d %12d %36d%n", n, ways, noticed);
      assertThat(noticed).as("n=" + n).isPositive().isLessThan(ways);
      if (n == 3) {
        assertThat(ways).isEqualTo(4);
        assertThat(noticed).isEqualTo(2);
      }
    }
  }

  private static List<TiePlan> wrongClips(TiePlan plan) {
    List<TiePlan> wrong = new ArrayList<>();
    for (int r = 0; r < 2; r++) {
      List<Tie> round = plan.rounds().get(r);
      for (Tie tie : round) {
        for (int free = 1; free <= plan.conductors(); free++) {
          int far = free;
          if (round.stream().noneMatch(t -> t.a() == far || t.b() == far)) {
            for (int kept : List.of(tie.a(), tie.b())) {
              List<Tie> made = new ArrayList<>(round);
              made.set(round.indexOf(tie), new Tie(kept, far));
              List<Tie> other = plan.rounds().get(1 - r);
              wrong.add(
                  new TiePlan(
                      plan.conductors(), r == 0 ? List.of(made, other) : List.of(other, made)));
            }
          }
        }
      }
    }
    return wrong;
  }

  @Test
  void aFarEndIsInOneTieARoundAtMost() {
    assertThatThrownBy(
            () -> new TiePlan(3, List.of(List.of(new Tie(1, 2), new Tie(2, 3)), List.of())))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
