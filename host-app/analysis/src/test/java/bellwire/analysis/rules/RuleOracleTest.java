package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Formula;
import bellwire.analysis.logic.Verdict;
import java.util.Arrays;
import java.util.Random;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

/**
 * The monitor against its rules' formulas, which an evaluator that knows nothing of stop-watches
 * works out moment by moment in many worlds.
 */
final class RuleOracleTest {
  private static final long SEED = Long.getLong("bellwire.seed", 20240611L);
  private static final int PAIRS = Integer.getInteger("bellwire.rules", 10_000);
  private static final int FEW = 12;
  private static final int MANY = 800;

  /** What worlds of a trace were found. */
  private record Found(boolean kept, boolean broken) {
    boolean agrees(Verdict verdict) {
      return verdict == Verdict.KEPT ? !broken : verdict != Verdict.BROKEN || !kept;
    }

    boolean both() {
      return kept && broken;
    }
  }

  private static Found look(RandomTrace trace, int worlds, Predicate<GridWorld> holds) {
    boolean kept = false;
    boolean broken = false;
    for (int i = 0; i < worlds && !(kept && broken); i++) {
      GridWorld world = trace.world();
      if (world != null) {
        boolean holding = holds.test(world);
        kept |= holding;
        broken |= !holding;
      }
    }
    return new Found(kept, broken);
  }

  private static Found look(Rule rule, RandomTrace trace, int worlds) {
    Formula formula = RuleFormula.of(rule);
    return look(trace, worlds, w -> w.holds(formula, trace.end));
  }

  private static int worlds(Verdict verdict) {
    return verdict == Verdict.UNDECIDED ? MANY : FEW;
  }

  private static String describe(int pair, Rule rule, RandomTrace trace, Ruling r, Found found) {
    return "pair %d %s%n%s%n%s%n%s %s%n%s"
        .formatted(pair, rule, RuleFormula.of(rule), trace, r.verdict(), r.marginMicros(), found);
  }

  @Test
  void exactTracesGetTheVerdictOfTheFormula() {
    System.out.println("seed=" + SEED + " pairs=" + PAIRS);
    Random random = new Random(SEED);
    int[] verdicts = new int[3];
    for (int n = 0; n < PAIRS; n++) {
      Rule rule = new RandomRules(random).rule(false, 1);
      RandomTrace trace = new RandomTrace(random, 1, 0, false);
      Ruling ruling = trace.run(rule, 0);
      Verdict verdict = ruling.verdict();
      verdicts[verdict.ordinal()]++;
      Found found = look(rule, trace, worlds(verdict));
      assertThat(verdict == Verdict.UNDECIDED ? found.both() : found.agrees(verdict))
          .as(describe(n, rule, trace, ruling, found))
          .isTrue();
    }
    System.out.printf(
        "exact: kept %d, broken %d, undecided %d%n", verdicts[0], verdicts[1], verdicts[2]);
    assertThat(Arrays.stream(verdicts).min().orElse(0)).isGreaterThan(PAIRS / 20);
  }

  /** Room is how far the bound can be tightened until the formula no longer surely holds. */
  @Test
  void marginsAreTheLargestTightening() {
    int pairs = PAIRS / 8;
    System.out.println("seed=" + SEED + " pairs=" + pairs);
    Random random = new Random(SEED + 1);
    int[] checked = new int[3];
    for (int n = 0; n < pairs; n++) {
      Rule rule = new RandomRules(random).rule(false, 1);
      RandomTrace trace = new RandomTrace(random, 1, 0, false);
      Ruling ruling = trace.run(rule, 0);
      Span margin = ruling.marginMicros();
      long bound = BoundedRules.bound(rule);
      if (bound == 0 || ruling.verdict() == Verdict.UNDECIDED) {
        continue;
      }
      if (margin == null) {
        holds(n, BoundedRules.tighten(rule, 1000), trace, ruling, true);
        checked[2]++;
      } else if (ruling.verdict() == Verdict.KEPT) {
        holds(n, BoundedRules.tighten(rule, margin.lowMicros()), trace, ruling, true);
        mayBreak(n, BoundedRules.tighten(rule, margin.lowMicros() + 1), trace, ruling);
        checked[0]++;
      } else {
        assertThat(margin.highMicros()).isNegative();
        holds(n, BoundedRules.tighten(rule, margin.highMicros() + 1), trace, ruling, false);
        if (bound + margin.highMicros() > 0 || !(rule.pattern() instanceof Pattern.Holds)) {
          mayHold(n, BoundedRules.tighten(rule, margin.highMicros()), trace, ruling);
        }
        checked[1]++;
      }
    }
    System.out.printf(
        "margins: kept %d, broken %d, kept whatever the bound %d%n",
        checked[0], checked[1], checked[2]);
    assertThat(Arrays.stream(checked).min().orElse(0)).isGreaterThan(pairs / 50);
  }

  private static void holds(int n, Rule rule, RandomTrace trace, Ruling ruling, boolean holds) {
    Found found = look(rule, trace, FEW);
    assertThat(holds ? !found.broken() : !found.kept())
        .as(describe(n, rule, trace, ruling, found))
        .isTrue();
  }

  private static void mayBreak(int n, Rule rule, RandomTrace trace, Ruling ruling) {
    if (BoundedRules.bound(rule) > 1) {
      Found found = look(rule, trace, MANY);
      assertThat(found.broken()).as(describe(n, rule, trace, ruling, found)).isTrue();
    }
  }

  private static void mayHold(int n, Rule rule, RandomTrace trace, Ruling ruling) {
    Found found = look(rule, trace, MANY);
    assertThat(found.kept()).as(describe(n, rule, trace, ruling, found)).isTrue();
  }

  /** Draws rules and traces, and says how often worlds of both kinds bear UNDECIDED out. */
  private static void uncertain(
      String what, boolean related, int widest, boolean unknown, int ppm, int apart, int lonely) {
    int pairs = PAIRS / 8;
    System.out.println("seed=" + SEED + " pairs=" + pairs);
    Random random = new Random(SEED + what.hashCode());
    int[] verdicts = new int[3];
    int lone = 0;
    for (int n = 0; n < pairs; n++) {
      Rule rule = new RandomRules(random).rule(related, 4);
      RandomTrace trace = new RandomTrace(random, 4, widest, unknown, apart);
      Ruling ruling = trace.run(rule, ppm);
      Verdict verdict = ruling.verdict();
      verdicts[verdict.ordinal()]++;
      Formula fast = RuleFormula.of(BoundedRules.clocked(rule, 1 + ppm / 1e6));
      Formula slow = RuleFormula.of(BoundedRules.clocked(rule, 1 - ppm / 1e6));
      Found found =
          look(trace, worlds(verdict), w -> w.holds(random.nextBoolean() ? fast : slow, trace.end));
      assertThat(found.agrees(verdict) && signsAgree(ruling))
          .as(describe(n, rule, trace, ruling, found))
          .isTrue();
      lone += verdict == Verdict.UNDECIDED && !found.both() ? 1 : 0;
    }
    System.out.printf(
        "%s: kept %d, broken %d, undecided %d, of which only worlds of one kind were found: %d%n",
        what, verdicts[0], verdicts[1], verdicts[2], lone);
    assertThat(Arrays.stream(verdicts).min().orElse(0)).isGreaterThan(pairs / 20);
    assertThat(100 * lone).isLessThan(verdicts[2] * lonely);
  }

  private static boolean signsAgree(Ruling ruling) {
    Span margin = ruling.marginMicros();
    if (margin == null) {
      return true;
    }
    return switch (ruling.verdict()) {
      case KEPT -> margin.lowMicros() >= 0;
      case BROKEN -> margin.highMicros() < 0;
      case UNDECIDED -> margin.lowMicros() < 0 && margin.highMicros() >= 0;
    };
  }

  @Test
  void edgesMayLieAnywhere() {
    uncertain("edges apart", false, 1, false, 0, 4, 5);
  }

  @Test
  void doubtfulEdgesMayCrowd() {
    uncertain("crowded edges", false, 4, false, 0, 1, 15);
  }

  @Test
  void aClockMayBeFastOrSlow() {
    uncertain("edges and clock", false, 2, false, 50_000, 2, 10);
  }

  @Test
  void expressionsMayShareFacts() {
    uncertain("shared facts", true, 3, false, 0, 2, 15);
  }

  @Test
  void anythingMayHappenWhereNothingIsKnown() {
    uncertain("unknown stretches", false, 2, true, 0, 2, 10);
  }

  /** With hardly any room for doubts, edges in doubt become unknown stretches. */
  @Test
  void whatIsTooMuchInDoubtIsStillSound() {
    int pairs = PAIRS / 8;
    System.out.println("seed=" + SEED + " pairs=" + pairs);
    Random random = new Random(SEED + 7);
    int wider = 0;
    for (int n = 0; n < pairs; n++) {
      Rule rule = new RandomRules(random).rule(true, 4);
      RandomTrace trace = new RandomTrace(random, 4, 3, random.nextBoolean());
      Ruling ruling = trace.run(rule, 0, 1 + random.nextInt(3));
      Found found = look(rule, trace, FEW);
      assertThat(found.agrees(ruling.verdict()) && signsAgree(ruling))
          .as(describe(n, rule, trace, ruling, found))
          .isTrue();
      wider += ruling.verdict() == trace.run(rule, 0).verdict() ? 0 : 1;
    }
    System.out.printf("blurred: %d of %d undecided for want of room%n", wider, pairs);
    assertThat(wider).isPositive();
  }
}
