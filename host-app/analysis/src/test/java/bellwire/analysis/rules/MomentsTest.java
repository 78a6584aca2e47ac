package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** How far it is looked for a moment, and whose rules leave none. */
class MomentsTest {
  private static final Expression X = new Expression.Fact("x");
  private static final Expression Y = new Expression.Fact("y");
  private static final Expression Z = new Expression.Fact("z");
  private static final Scope ALWAYS = new Scope.Globally();

  private static Rule rule(String name, Pattern pattern, Scope scope) {
    return new Rule(name, "", pattern, scope);
  }

  private static Expression not(Expression e) {
    return new Expression.Not(e);
  }

  private static List<Contradiction> found(Rule... rules) {
    return Contradictions.find(List.of(rules), List.of(Set.of()));
  }

  /**
   * Each way for n facts to be comes before the two statements that contradict one another: four
   * times 2^n steps. At more than 200,000 it counts as possible, docs/rules.md, section 5.
   */
  @Test
  void whatTakesTooLongCountsAsPossible() {
    for (int n : new int[] {8, 16}) {
      List<Expression> first = new ArrayList<>(List.of(Y, not(Y)));
      IntStream.range(1, n).forEach(i -> first.add(new Expression.Fact("f" + i)));
      List<Expression> all = List.of(new Expression.Any(first), X, not(X));
      assertThat(new Moments(List.of()).possible(all)).isEqualTo(n == 16);
    }
  }

  @Test
  void onlyTheRulesConcernedAreNamed() {
    assertThat(
            found(
                rule("a", new Pattern.Always(X), ALWAYS),
                rule("b", new Pattern.Never(Y), ALWAYS),
                rule("c", new Pattern.Never(X), ALWAYS)))
        .containsExactly(
            new Contradiction(List.of("a", "c"), "at no moment can all be the case", false));
    assertThat(
            found(
                rule("a", new Pattern.Never(Y), ALWAYS),
                rule("b", new Pattern.Sometime(X), ALWAYS),
                rule("c", new Pattern.Never(X), ALWAYS)))
        .containsExactly(new Contradiction(List.of("b", "c"), "'x' can never come", false));
  }

  /** Y only at or after X, so not before it. */
  @Test
  void whatMustComeBeforeMustBePossibleBefore() {
    Rule standing = rule("a", new Pattern.Always(new Expression.Any(List.of(X, not(Y)))), ALWAYS);
    assertThat(found(standing, rule("b", new Pattern.Sometime(Y), new Scope.Before(X))))
        .containsExactly(new Contradiction(List.of("b", "a"), "'y' can never come", false));
    assertThat(found(standing, rule("b", new Pattern.Sometime(Y), new Scope.After(X)))).isEmpty();
  }

  /** The answer may be out of the scope's reach, but the scope may end. */
  @Test
  void aScopeThatMayEndLeavesAWayOut() {
    Rule standing = rule("a", new Pattern.Never(new Expression.All(List.of(Y, Z))), ALWAYS);
    Rule answer = rule("b", new Pattern.Response(X, Y, 5L), new Scope.While(Z));
    assertThat(found(standing, answer)).isEmpty();
    Rule never = rule("c", new Pattern.Never(Y), ALWAYS);
    assertThat(found(never, answer))
        .containsExactly(new Contradiction(List.of("b", "c"), "'y' can never come", false));
  }

  /** A call that is always made can still go unanswered; one that always lasts can't be short. */
  @Test
  void aCallThatIsAlwaysMadeCanGoUnanswered() {
    Expression always = new Expression.Any(List.of(X, not(X)));
    assertThat(found(rule("a", new Pattern.Response(always, Y, 5L), ALWAYS))).isEmpty();
    assertThat(found(rule("a", new Pattern.AtMost(always, 5), ALWAYS)))
        .containsExactly(
            new Contradiction(
                List.of("a"), "it can't be broken: 'x or not x' is always the case", true));
  }
}
