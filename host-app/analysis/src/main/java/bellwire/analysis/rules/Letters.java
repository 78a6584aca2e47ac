package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;

/**
 * What a rule sees of its facts: three bits, the scope's expression, the pattern's first and its
 * second. Facts are bits of a long.
 */
final class Letters {
  static final int SCOPE = 1;
  static final int FIRST = 2;
  static final int SECOND = 4;

  /** With more unknown facts than this, expressions are taken as independent of one another. */
  private static final int MOST_TRIED = 10;

  /** An expression over facts as bits, true or false. */
  private interface Test {
    boolean holds(long facts);
  }

  private final List<String> facts;
  private final List<Expression> expressions = new ArrayList<>();
  private final List<Test> tests = new ArrayList<>();

  Letters(Rule rule) {
    facts = List.copyOf(rule.facts());
    if (facts.size() > Long.SIZE) {
      throw new IllegalArgumentException("rule=" + rule.name() + " facts=" + facts.size());
    }
    Expression always = new Expression.All(List.of());
    List<Expression> scope = rule.scope().expressions();
    expressions.add(scope.isEmpty() ? always : scope.get(0));
    expressions.addAll(rule.pattern().expressions());
    expressions.forEach(e -> tests.add(compile(e)));
  }

  List<String> facts() {
    return facts;
  }

  int of(long values) {
    int letter = 0;
    for (int i = 0; i < tests.size(); i++) {
      letter |= tests.get(i).holds(values) ? 1 << i : 0;
    }
    return letter;
  }

  /** The letters there may be, as bits by letter, with any value for the facts unknown. */
  int possible(long values, long unknown) {
    if (unknown == 0) {
      return 1 << of(values);
    }
    if (Long.bitCount(unknown) > MOST_TRIED) {
      return independently(values, unknown);
    }
    int letters = 0;
    long tried = 0;
    do {
      letters |= 1 << of(values & ~unknown | tried);
      tried = (tried - unknown) & unknown; // the next subset of the unknown
    } while (tried != 0);
    return letters;
  }

  private int independently(long values, long unknown) {
    int letters = 1;
    for (int i = 0; i < expressions.size(); i++) {
      Truth truth =
          expressions
              .get(i)
              .evaluate(
                  name -> {
                    long bit = bit(name);
                    return (unknown & bit) != 0 ? Truth.UNKNOWN : Truth.of((values & bit) != 0);
                  });
      int without = truth == Truth.TRUE ? 0 : letters;
      int with = truth == Truth.FALSE ? 0 : letters << (1 << i);
      letters = without | with;
    }
    return letters;
  }

  private long bit(String name) {
    return 1L << facts.indexOf(name);
  }

  private Test compile(Expression expression) {
    if (expression instanceof Expression.Fact fact) {
      long bit = bit(fact.name());
      return values -> (values & bit) != 0;
    } else if (expression instanceof Expression.Not not) {
      Test inner = compile(not.operand());
      return values -> !inner.holds(values);
    } else if (expression instanceof Expression.All all) {
      return join(all.operands(), false);
    }
    return join(((Expression.Any) expression).operands(), true);
  }

  private Test join(List<Expression> operands, boolean decisive) {
    Test[] inner = operands.stream().map(this::compile).toArray(Test[]::new);
    return values -> {
      for (Test test : inner) {
        if (test.holds(values) == decisive) {
          return decisive;
        }
      }
      return !decisive;
    };
  }
}
