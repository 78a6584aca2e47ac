package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/** Twenty rules of all kinds on sixteen facts, and words of samples for them. */
final class TwentyRules {
  static final List<String> FACTS = IntStream.range(0, 16).mapToObj(i -> "X" + (i + 1)).toList();
  private static final long SECOND = 1_000_000;

  private TwentyRules() {}

  static List<Rule> rules() throws BadExpression {
    List<Rule> rules = new ArrayList<>();
    Scope always = new Scope.Globally();
    Scope during = new Scope.While(fact("X16"));
    for (int i = 0; i < 2; i++) {
      int k = 6 * i;
      Expression a = fact("X" + (k + 1));
      Expression b = fact("X" + (k + 2));
      Expression c = fact("X" + (k + 3) + " and not X" + (k + 4));
      Expression d = fact("X" + (k + 5) + " or X" + (k + 6));
      add(rules, new Pattern.Never(new Expression.All(List.of(a, b))), always);
      add(rules, new Pattern.Always(d), during);
      add(rules, new Pattern.Sometime(a), new Scope.After(fact("X15")));
      add(rules, new Pattern.OnlyAfter(a, b), during);
      add(rules, new Pattern.Response(a, b, 2 * SECOND), always);
      add(rules, new Pattern.Response(c, d, null), during);
      add(rules, new Pattern.Holds(b, d, 5 * SECOND), always);
      add(rules, new Pattern.AtLeast(new Expression.Not(a), 300 * SECOND), during);
      add(rules, new Pattern.AtMost(c, 90 * SECOND), new Scope.Before(fact("X14")));
      add(rules, new Pattern.Recurs(d, 600 * SECOND), always);
    }
    return rules;
  }

  private static Expression fact(String text) throws BadExpression {
    return Expression.parse(text, FACTS);
  }

  private static void add(List<Rule> rules, Pattern pattern, Scope scope) {
    rules.add(new Rule("rule " + rules.size(), "", pattern, scope));
  }

  /**
   * Words a millisecond apart, the last as the first. Each change of a bit bounces twice before it
   * stays.
   */
  static int[] words(int samples, int changesOfABit, long seed) {
    Random random = new Random(seed);
    int[] toggles = new int[samples];
    for (int bit = 0; bit < 16; bit++) {
      for (int n = 0; n < 2 * (changesOfABit / 2); n++) {
        int at = random.nextInt(samples - 8);
        for (int bounce = 0; bounce < 3; bounce++) {
          toggles[at + 2 * bounce] ^= 1 << bit;
        }
      }
    }
    int word = 0;
    for (int i = 0; i < samples; i++) {
      word ^= toggles[i];
      toggles[i] = word;
    }
    return toggles;
  }
}
