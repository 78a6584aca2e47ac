package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

final class ContradictionsTest {
  private static final long SECOND = 1_000_000;
  private static final Scope ALWAYS = new Scope.Globally();
  private static final List<String> KNOWN =
      List.of("W1", "Y1", "G", "released Y1", "mode heat", "mode cool", "power off");
  private static final List<Set<String>> EXCLUSIVE =
      List.of(Set.of("Y1", "released Y1"), Set.of("mode heat", "mode cool"));

  private static Expression e(String text) {
    try {
      return Expression.parse(text, KNOWN);
    } catch (BadExpression bad) {
      throw new IllegalArgumentException(text, bad);
    }
  }

  private static Rule rule(String name, Pattern pattern, Scope scope) {
    return new Rule(name, "", pattern, scope);
  }

  private static void found(String reason, Rule... rules) {
    List<String> names = new ArrayList<>();
    List.of(rules).forEach(r -> names.add(r.name()));
    assertThat(Contradictions.find(List.of(rules), EXCLUSIVE))
        .containsExactly(new Contradiction(names, reason, false));
  }

  private static void warned(String reason, Rule rule) {
    assertThat(Contradictions.find(List.of(rule), EXCLUSIVE))
        .containsExactly(
            new Contradiction(List.of(rule.name()), "it can't be broken: " + reason, true));
  }

  private static void fine(Rule... rules) {
    assertThat(Contradictions.find(List.of(rules), EXCLUSIVE)).isEmpty();
  }

  @Test
  void noMomentForAll() {
    found(
        "at no moment can all be the case",
        rule("a", new Pattern.Always(e("W1 or Y1")), ALWAYS),
        rule("b", new Pattern.Never(e("W1")), ALWAYS),
        rule("c", new Pattern.Never(e("Y1")), ALWAYS));
    found(
        "it can never be the case", rule("a", new Pattern.Always(e("Y1 and released Y1")), ALWAYS));
    found(
        "they leave no moment at which 'mode heat' may be the case",
        rule("a", new Pattern.Always(e("W1")), new Scope.While(e("mode heat"))),
        rule("b", new Pattern.Never(e("W1")), new Scope.While(e("mode heat"))));
    fine(
        rule("a", new Pattern.Always(e("W1")), new Scope.While(e("mode heat"))),
        rule("b", new Pattern.Never(e("W1")), new Scope.While(e("mode cool"))));
    fine(
        rule("a", new Pattern.Never(e("Y1")), ALWAYS),
        rule("b", new Pattern.Always(e("G")), new Scope.While(e("Y1"))));
  }

  @Test
  void whatIsDemandedMayBeForbidden() {
    found(
        "'G' can never come",
        rule("a", new Pattern.Response(e("Y1"), e("G"), 2 * SECOND), ALWAYS),
        rule("b", new Pattern.Never(e("G")), ALWAYS));
    found(
        "'W1' can never come",
        rule("a", new Pattern.Sometime(e("W1")), new Scope.While(e("mode heat"))),
        rule("b", new Pattern.Never(e("W1")), new Scope.While(e("mode heat"))));
    found(
        "'G' can't be the case while 'Y1' is",
        rule("a", new Pattern.Holds(e("Y1"), e("G"), SECOND), ALWAYS),
        rule("b", new Pattern.Never(e("Y1 and G")), ALWAYS));
    // The fan may come after the call has gone.
    fine(
        rule("a", new Pattern.Response(e("Y1"), e("G"), 2 * SECOND), ALWAYS),
        rule("b", new Pattern.Never(e("Y1 and G")), ALWAYS));
  }

  @Test
  void boundsTheWrongWayRound() {
    found(
        "'not Y1' can't last at least 300 s and at most 100 s",
        rule("rest", new Pattern.AtLeast(e("not Y1"), 300 * SECOND), ALWAYS),
        rule("brisk", new Pattern.AtMost(e("not Y1"), 100 * SECOND), ALWAYS));
    found(
        "'not Y1' can't last at least 300 s and at most 100 s",
        rule("rest", new Pattern.AtLeast(e("not Y1"), 300 * SECOND), ALWAYS),
        rule("often", new Pattern.Recurs(e("Y1"), 100 * SECOND), new Scope.While(e("W1"))));
    fine(
        rule("rest", new Pattern.AtLeast(e("not Y1"), 300 * SECOND), ALWAYS),
        rule("lazy", new Pattern.AtMost(e("not Y1"), 300 * SECOND), ALWAYS));
    fine(
        rule("a", new Pattern.AtLeast(e("G"), 300 * SECOND), new Scope.While(e("mode heat"))),
        rule("b", new Pattern.AtMost(e("G"), 100 * SECOND), new Scope.While(e("mode cool"))));
  }

  @Test
  void answersThatExcludeOneAnother() {
    found(
        "after 'power off', 'released Y1' for 5 s leaves no time for 'Y1' within 2 s",
        rule("a", new Pattern.Holds(e("power off"), e("released Y1"), 5 * SECOND), ALWAYS),
        rule("b", new Pattern.Response(e("power off"), e("Y1"), 2 * SECOND), ALWAYS));
    found(
        "neither 'Y1' nor 'released Y1' can come first",
        rule("a", new Pattern.OnlyAfter(e("Y1"), e("released Y1")), ALWAYS),
        rule("b", new Pattern.OnlyAfter(e("released Y1"), e("Y1")), ALWAYS));
  }

  /** Each pattern that demands something, of what a rule for all times forbids. */
  @Test
  void whatIsForbiddenForAllTimesCannotBeDemanded() {
    Rule never = rule("z", new Pattern.Never(e("W1")), ALWAYS);
    Scope heat = new Scope.While(e("mode heat"));
    for (Scope scope : List.of(ALWAYS, heat, new Scope.After(e("G")), new Scope.Before(e("G")))) {
      found("'W1' can never come", rule("a", new Pattern.Sometime(e("W1")), scope), never);
      found("'W1' can never come", rule("a", new Pattern.Recurs(e("W1"), SECOND), scope), never);
      found(
          "'W1' can never come",
          rule("a", new Pattern.Response(e("Y1"), e("W1"), null), scope),
          never);
      found(
          "'W1' can never come",
          rule("a", new Pattern.Response(e("Y1"), e("W1"), SECOND), scope),
          never);
      found(
          "'W1' can't be the case while 'Y1' is",
          rule("a", new Pattern.Holds(e("Y1"), e("W1"), SECOND), scope),
          never);
      // Nothing is demanded by these, nor where what calls for it is forbidden as well.
      fine(rule("a", new Pattern.OnlyAfter(e("Y1"), e("W1")), scope), never);
      fine(rule("a", new Pattern.AtLeast(e("W1"), SECOND), scope), never);
      fine(rule("a", new Pattern.Response(e("W1"), e("W1 and G"), null), scope), never);
    }
  }

  /** What must come before the scope ends must come in it; what has a time may come behind. */
  @Test
  void whatHasATimeMayComeAfterTheScope() {
    Scope heat = new Scope.While(e("mode heat"));
    Rule never = rule("b", new Pattern.Never(e("G")), heat);
    found(
        "'G' can never come", rule("a", new Pattern.Response(e("Y1"), e("G"), null), heat), never);
    found("'G' can never come", rule("a", new Pattern.Recurs(e("G"), SECOND), heat), never);
    found(
        "'G' can't be the case while 'Y1' is",
        rule("a", new Pattern.Holds(e("Y1"), e("G"), SECOND), heat),
        never);
    fine(rule("a", new Pattern.Response(e("Y1"), e("G"), SECOND), heat), never);
    fine(rule("a", new Pattern.Sometime(e("G")), new Scope.While(e("mode cool"))), never);
  }

  @Test
  void scopesMeetWhereOneLiesInTheOther() {
    Pattern rest = new Pattern.AtLeast(e("not Y1"), 300 * SECOND);
    Pattern brisk = new Pattern.AtMost(e("not Y1"), 100 * SECOND);
    Scope heat = new Scope.While(e("mode heat"));
    Scope heatAndFan = new Scope.While(e("mode heat and G"));
    String reason = "'not Y1' can't last at least 300 s and at most 100 s";
    found(reason, rule("a", rest, heat), rule("b", brisk, heatAndFan));
    found(reason, rule("a", rest, heatAndFan), rule("b", brisk, heat));
    found(reason, rule("a", rest, new Scope.After(e("G"))), rule("b", brisk, ALWAYS));
    Scope after = new Scope.After(e("G"));
    found(reason, rule("a", rest, after), rule("b", brisk, new Scope.After(e("G"))));
    fine(rule("a", rest, after), rule("b", brisk, new Scope.After(e("W1"))));
    fine(rule("a", rest, heat), rule("b", brisk, new Scope.While(e("G"))));
    found(
        "'G' can't last at least 10 s and at most 5 s",
        rule("a", new Pattern.Holds(e("Y1"), e("G"), 10 * SECOND), ALWAYS),
        rule("b", new Pattern.AtMost(e("G"), 5 * SECOND), ALWAYS));
    fine(
        rule("a", new Pattern.AtLeast(e("G"), 10 * SECOND), ALWAYS),
        rule("b", new Pattern.AtMost(e("Y1"), 5 * SECOND), ALWAYS));
  }

  @Test
  void answersLeaveNoTimeOnlyWhereTheyMeet() {
    Pattern released = new Pattern.Holds(e("power off"), e("released Y1"), 5 * SECOND);
    Rule hold = rule("a", released, ALWAYS);
    found(
        "after 'power off', 'released Y1' for 5 s leaves no time for 'Y1' within 5 s",
        hold,
        rule("b", new Pattern.Response(e("power off"), e("Y1"), 5 * SECOND), ALWAYS));
    for (Pattern later :
        List.of(
            new Pattern.Response(e("power off"), e("Y1"), 5 * SECOND + 1),
            new Pattern.Response(e("power off"), e("Y1"), null),
            new Pattern.Response(e("power off"), e("G"), SECOND),
            new Pattern.Response(e("mode heat"), e("Y1"), SECOND))) {
      fine(hold, rule("b", later, ALWAYS));
    }
    // Told once, in whatever order they stand.
    List<Contradiction> found =
        Contradictions.find(
            List.of(
                rule("b", new Pattern.OnlyAfter(e("Y1"), e("released Y1")), ALWAYS),
                rule("a", new Pattern.OnlyAfter(e("released Y1"), e("Y1")), ALWAYS)),
            EXCLUSIVE);
    assertThat(found)
        .containsExactly(
            new Contradiction(
                List.of("a", "b"), "neither 'released Y1' nor 'Y1' can come first", false));
    fine(
        rule("a", new Pattern.OnlyAfter(e("Y1"), e("W1")), ALWAYS),
        rule("b", new Pattern.OnlyAfter(e("W1"), e("Y1")), ALWAYS));
  }

  @Test
  void whatCannotBeBrokenIsSaidOfEachPattern() {
    Expression never = e("Y1 and released Y1");
    Expression always = e("G or not G");
    String isNever = "'Y1 and released Y1' is never the case";
    String isAlways = "'G or not G' is always the case";
    warned(isNever, rule("a", new Pattern.Response(never, e("G"), SECOND), ALWAYS));
    warned(isNever, rule("a", new Pattern.OnlyAfter(never, e("G")), ALWAYS));
    warned(isNever, rule("a", new Pattern.Holds(never, e("G"), SECOND), ALWAYS));
    warned(isNever, rule("a", new Pattern.AtLeast(never, SECOND), ALWAYS));
    warned(isNever, rule("a", new Pattern.AtMost(never, SECOND), ALWAYS));
    warned(isAlways, rule("a", new Pattern.Recurs(always, SECOND), ALWAYS));
    warned(isAlways, rule("a", new Pattern.AtLeast(always, SECOND), ALWAYS));
    warned(isAlways, rule("a", new Pattern.AtMost(always, SECOND), ALWAYS));
    warned(isAlways, rule("a", new Pattern.Holds(e("W1"), always, SECOND), ALWAYS));
    warned(
        "whenever 'W1 and G' is the case, 'G' is as well",
        rule("a", new Pattern.OnlyAfter(e("W1 and G"), e("G")), ALWAYS));
    Scope released = new Scope.While(e("released Y1"));
    warned("'Y1' is never the case", rule("a", new Pattern.Never(e("Y1")), released));
    warned("'not Y1' is always the case", rule("a", new Pattern.Always(e("not Y1")), released));
    fine(rule("a", new Pattern.Sometime(always), ALWAYS));
    fine(rule("a", new Pattern.Always(e("not Y1")), new Scope.Before(e("released Y1"))));
  }

  @Test
  void rulesThatSayNothing() {
    warned(
        "'Y1 and released Y1' is never the case",
        rule("a", new Pattern.Never(e("Y1 and released Y1")), ALWAYS));
    warned(
        "'G or not G' is always the case", rule("a", new Pattern.Always(e("G or not G")), ALWAYS));
    warned(
        "whenever 'W1 and G' is the case, 'G' is as well",
        rule("a", new Pattern.Response(e("W1 and G"), e("G"), SECOND), ALWAYS));
    warned(
        "its scope, 'mode heat and mode cool', is never the case",
        rule("a", new Pattern.Never(e("G")), new Scope.While(e("mode heat and mode cool"))));
  }

  /** A rule or two with random traces that keep them are no contradiction. */
  @Test
  void whatATraceKeepsIsNoContradiction() {
    long seed = 3;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    int contradictions = 0;
    int kept = 0;
    for (int n = 0; n < 4000; n++) {
      List<Rule> rules = new ArrayList<>();
      for (int i = 0; i < 2; i++) {
        Rule r = new RandomRules(random).rule(true, 1);
        rules.add(new Rule("r" + i, "", r.pattern(), ALWAYS));
      }
      List<Contradiction> contradiction =
          Contradictions.find(rules, List.of()).stream().filter(c -> !c.warning()).toList();
      contradictions += contradiction.isEmpty() ? 0 : 1;
      for (int t = 0; t < 3; t++) {
        RandomTrace trace = new RandomTrace(random, 1, 0, false);
        List<Ruling> rulings = rules.stream().map(r -> trace.run(r, 0)).toList();
        if (rulings.stream().allMatch(r -> r.verdict() == Verdict.KEPT && r.occasions() > 0)) {
          kept++;
          assertThat(contradiction).as(rules + "\n" + trace).isEmpty();
        }
      }
    }
    System.out.printf("contradictions %d, kept %d%n", contradictions, kept);
    assertThat(contradictions).isGreaterThan(100);
    assertThat(kept).isGreaterThan(1000);
  }
}
