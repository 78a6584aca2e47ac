package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Bounds;
import bellwire.analysis.logic.Formula;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The rules' formulas against published ones, and against the logic's own monitor. */
final class RuleFormulaTest {
  private static final long SEED = 17;
  private static final int PAIRS = 1500;
  private static final long C = 5;
  private static final Expression P = new Expression.Fact("a");
  private static final Expression S = new Expression.Fact("b");
  private static final Expression Q = new Expression.Fact("c");
  private static final Formula p = Formula.atom("a");
  private static final Formula s = Formula.atom("b");
  private static final Formula q = Formula.atom("c");
  private static final Scope ALWAYS = new Scope.Globally();

  /** On endless traces the two say the same; both sides are met. */
  private static void same(Pattern pattern, Scope scope, Formula published) {
    same(pattern, scope, published, Formula.constant(true));
  }

  private static void same(Pattern pattern, Scope scope, Formula published, Formula provided) {
    Formula own = RuleFormula.of(new Rule("", "", pattern, scope));
    Random random = new Random(SEED);
    int held = 0;
    int failed = 0;
    for (int n = 0; n < PAIRS; n++) {
      GridWorld world = new RandomTrace(random, 1, 0, false).world();
      if (world != null && world.holds(provided)) {
        boolean holds = world.holds(published);
        assertThat(world.holds(own)).as("%s and %s", own, published).isEqualTo(holds);
        held += holds ? 1 : 0;
        failed += holds ? 0 : 1;
      }
    }
    assertThat(held).as(published.toString()).isGreaterThan(10);
    assertThat(failed).as(published.toString()).isGreaterThan(10);
  }

  /**
   * Dwyer, Avrunin and Corbett, ICSE 1999: the mappings to LTL that the reference values list as
   * read (absence and universality after, existence after, response), precedence and the before
   * scope from memory.
   */
  @Test
  void untimedPatternsAreThePublishedOnes() {
    System.out.println("seed=" + SEED);
    same(new Pattern.Response(P, S, null), ALWAYS, always(implies(p, Formula.eventually(s))));
    Scope after = new Scope.After(Q);
    same(new Pattern.Always(P), after, always(implies(q, always(p))));
    same(new Pattern.Never(P), after, always(implies(q, always(not(p)))));
    same(
        new Pattern.Sometime(P),
        after,
        Formula.or(always(not(q)), Formula.eventually(Formula.and(q, Formula.eventually(p)))));
    same(new Pattern.OnlyAfter(P, S), ALWAYS, Formula.weakUntil(not(p), s));
    Formula comes = Formula.eventually(q);
    Scope before = new Scope.Before(Q);
    same(new Pattern.Never(P), before, implies(comes, Formula.until(not(p), q)), comes);
    same(new Pattern.Always(P), before, implies(comes, Formula.until(p, q)), comes);
    same(
        new Pattern.OnlyAfter(P, S),
        before,
        implies(comes, Formula.until(not(p), Formula.or(s, q))),
        comes);
  }

  /** Konrad and Cheng, ICSE 2005; maximum duration as read, the others from memory. */
  @Test
  void timedPatternsAreThePublishedOnes() {
    System.out.println("seed=" + SEED);
    Bounds within = Bounds.within(C);
    same(
        new Pattern.AtMost(P, C),
        ALWAYS,
        longAway(Formula.and(p, Formula.eventually(within, not(p)))));
    same(new Pattern.Response(P, S, C), ALWAYS, always(implies(p, Formula.eventually(within, s))));
    same(new Pattern.Holds(P, S, C), ALWAYS, always(implies(p, Formula.always(within, s))));
    same(new Pattern.Recurs(P, C), ALWAYS, always(Formula.eventually(within, p)));
    // Published, the end of the time is included: at whole numbers one more.
    same(new Pattern.AtLeast(P, C + 1), ALWAYS, longAway(Formula.always(within, p)));
  }

  private static Formula longAway(Formula then) {
    return always(Formula.or(p, Formula.weakUntil(not(p), then)));
  }

  private static Formula always(Formula f) {
    return Formula.always(f);
  }

  private static Formula implies(Formula a, Formula b) {
    return Formula.implies(a, b);
  }

  private static Formula not(Formula f) {
    return Formula.not(f);
  }

  /** Without doubts the stop-watches and the logic's monitor agree, but on what has no time. */
  @Test
  void theLogicsMonitorAgreesOnExactTraces() {
    System.out.println("seed=" + SEED);
    Random random = new Random(SEED);
    int waiting = 0;
    for (int n = 0; n < 4 * PAIRS; n++) {
      Rule rule = new RandomRules(random).rule(false, 1);
      RandomTrace trace = new RandomTrace(random, 1, 0, false);
      Ruling ruling = trace.run(rule, 0);
      String own = ruling.verdict().name();
      String logic = trace.follow(RuleFormula.of(rule)).name();
      // At the trace's end the logic cuts off what may come any time; a rule still waits for it.
      boolean untimed =
          rule.pattern() instanceof Pattern.Sometime
              || rule.pattern() instanceof Pattern.Response r && r.withinMicros() == null;
      if (untimed && own.equals("UNDECIDED")) {
        assertThat(logic).isEqualTo("BROKEN");
        waiting++;
      } else if (rule.pattern() instanceof Pattern.AtLeast
          && own.equals("KEPT")
          && logic.equals("UNDECIDED")) {
        // Full at the very end of the trace: to the logic the moment itself is unknown.
        assertThat(ruling.marginMicros()).isNotNull();
        assertThat(ruling.marginMicros().lowMicros()).isZero();
      } else {
        assertThat(own).as("%s\n%s", RuleFormula.of(rule), trace).isEqualTo(logic);
      }
    }
    assertThat(waiting).isPositive();
  }

  @Test
  void formulasPrintAsUsual() {
    assertThat(
            RuleFormula.of(
                new Rule(
                    "",
                    "",
                    new Pattern.AtLeast(new Expression.Fact("released Y1"), 300_000_000),
                    new Scope.While(new Expression.Fact("mode heat")))))
        .hasToString(
            "G(\"mode heat\" & (rise(\"released Y1\") & \"mode heat\" S (\"mode heat\" &"
                + " !\"released Y1\")) -> \"released Y1\" U[300 s,300 s] true | \"released Y1\""
                + " U[0,300 s] !\"mode heat\")");
  }
}
