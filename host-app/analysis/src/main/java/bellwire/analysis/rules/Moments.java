package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Which statements can be the case together at one moment. */
final class Moments {
  /** Steps of search after which a set of statements counts as possible. */
  private static final int MOST_STEPS = 200_000;

  private final List<Set<String>> exclusive;
  private int steps;

  /**
   * @param exclusive sets of facts of which at most one is the case at once
   */
  Moments(List<Set<String>> exclusive) {
    this.exclusive = exclusive.stream().<Set<String>>map(Set::copyOf).toList();
  }

  boolean possible(Expression... statements) {
    return possible(List.of(statements));
  }

  boolean possible(Collection<Expression> statements) {
    Set<String> facts = new LinkedHashSet<>();
    statements.forEach(e -> facts.addAll(e.facts()));
    steps = 0;
    return search(statements, new ArrayList<>(facts), 0, new HashMap<>());
  }

  /** Whether a statement is the case whenever the others are. */
  boolean follows(Expression statement, Expression... from) {
    List<Expression> all = new ArrayList<>(List.of(from));
    all.add(new Expression.Not(statement));
    return !possible(all);
  }

  boolean same(Expression a, Expression b) {
    return follows(a, b) && follows(b, a);
  }

  private boolean search(
      Collection<Expression> statements, List<String> facts, int next, Map<String, Truth> values) {
    if (++steps > MOST_STEPS) {
      return true;
    }
    boolean settled = true;
    for (Expression statement : statements) {
      Truth truth = statement.evaluate(name -> values.getOrDefault(name, Truth.UNKNOWN));
      if (truth == Truth.FALSE) {
        return false;
      }
      settled &= truth == Truth.TRUE;
    }
    if (settled) {
      return true;
    }
    String fact = facts.get(next);
    boolean found = false;
    if (free(fact, values)) {
      values.put(fact, Truth.TRUE);
      found = search(statements, facts, next + 1, values);
    }
    if (!found) {
      values.put(fact, Truth.FALSE);
      found = search(statements, facts, next + 1, values);
    }
    values.remove(fact);
    return found;
  }

  /** Whether no fact that excludes it is the case. */
  private boolean free(String fact, Map<String, Truth> values) {
    for (Set<String> set : exclusive) {
      if (set.contains(fact) && set.stream().anyMatch(other -> values.get(other) == Truth.TRUE)) {
        return false;
      }
    }
    return true;
  }
}
