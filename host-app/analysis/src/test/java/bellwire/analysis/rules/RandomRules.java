package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Draws rules over four facts. */
final class RandomRules {
  static final List<String> FACTS = List.of("a", "b", "c", "d");
  private final Random random;

  RandomRules(Random random) {
    this.random = random;
  }

  /**
   * @param related whether the rule's expressions may share facts, so that one may exclude another
   * @param unit all bounds are multiples of it
   */
  Rule rule(boolean related, int unit) {
    List<String> left = new ArrayList<>(FACTS);
    Pattern pattern = pattern(left, related, unit * (1 + random.nextInt(7)));
    Scope scope =
        switch (random.nextInt(5)) {
          case 0 -> new Scope.Globally();
          case 1 -> new Scope.After(expression(left, related));
          case 2 -> new Scope.Before(expression(left, related));
          default -> new Scope.While(expression(left, related));
        };
    return new Rule("random", "", pattern, scope);
  }

  private Pattern pattern(List<String> left, boolean related, long bound) {
    Expression p = expression(left, related);
    Expression s = expression(left, related);
    return switch (random.nextInt(10)) {
      case 0 -> new Pattern.Never(p);
      case 1 -> new Pattern.Always(p);
      case 2 -> new Pattern.Sometime(p);
      case 3 -> new Pattern.OnlyAfter(p, s);
      case 4 -> new Pattern.Response(p, s, null);
      case 5 -> new Pattern.Response(p, s, bound);
      case 6 -> new Pattern.Holds(p, s, bound);
      case 7 -> new Pattern.AtLeast(p, bound);
      case 8 -> new Pattern.AtMost(p, bound);
      default -> new Pattern.Recurs(p, bound);
    };
  }

  private Expression expression(List<String> left, boolean related) {
    Expression first = literal(left, related);
    if (left.size() < 3 && !related || random.nextInt(3) > 0) {
      return first;
    }
    Expression second = literal(left, related);
    return random.nextBoolean()
        ? new Expression.All(List.of(first, second))
        : new Expression.Any(List.of(first, second));
  }

  private Expression literal(List<String> left, boolean related) {
    int at = random.nextInt(left.size());
    Expression fact = new Expression.Fact(related ? left.get(at) : left.remove(at));
    return random.nextBoolean() ? fact : new Expression.Not(fact);
  }
}
