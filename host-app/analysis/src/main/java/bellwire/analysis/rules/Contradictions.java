package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Finds rules that no trace can keep once they are put to the test. docs/rules.md says which are
 * found and which are not.
 */
public final class Contradictions {
  private final List<Rule> rules;
  private final Moments moments;
  private final List<Contradiction> found = new ArrayList<>();

  /** Rules that say something of every moment by itself, and what. */
  private final List<Rule> standing = new ArrayList<>();

  private final List<Expression> statements = new ArrayList<>();

  private Contradictions(List<Rule> rules, List<Set<String>> exclusive) {
    this.rules = rules;
    moments = new Moments(exclusive);
    for (Rule rule : rules) {
      Expression statement = statement(rule);
      if (statement != null) {
        standing.add(rule);
        statements.add(statement);
      }
    }
  }

  /**
   * @param exclusive sets of facts of which at most one is the case at once
   */
  public static List<Contradiction> find(List<Rule> rules, List<Set<String>> exclusive) {
    Contradictions search = new Contradictions(List.copyOf(rules), exclusive);
    search.momentByMoment();
    if (search.found.isEmpty()) {
      search.rules.forEach(search::demand);
      search.pairs();
    }
    if (search.found.isEmpty()) {
      search.rules.forEach(search::idle);
    }
    return List.copyOf(search.found);
  }

  /** What a rule says of each moment by itself, null if it looks further. */
  private static @Nullable Expression statement(Rule rule) {
    Expression wanted;
    if (rule.pattern() instanceof Pattern.Never p) {
      wanted = not(p.what());
    } else if (rule.pattern() instanceof Pattern.Always p) {
      wanted = p.what();
    } else {
      return null;
    }
    if (rule.scope() instanceof Scope.Globally) {
      return wanted;
    }
    return rule.scope() instanceof Scope.While s ? any(not(s.during()), wanted) : null;
  }

  private void momentByMoment() {
    if (!moments.possible(statements)) {
      List<Rule> core = core(standing, List.of());
      report(
          core, core.size() == 1 ? "it can never be the case" : "at no moment can all be the case");
      return;
    }
    for (Rule rule : standing) {
      if (rule.scope() instanceof Scope.While s
          && possibleByGlobal(s.during())
          && impossible(s.during())) {
        List<Rule> core = core(standing, List.of(s.during()));
        report(core, "they leave no moment at which '" + s.during() + "' may be the case");
        return;
      }
    }
  }

  /** A scope that the rules for all times forbid is no contradiction: it just never comes. */
  private boolean possibleByGlobal(Expression scope) {
    List<Expression> all = new ArrayList<>(List.of(scope));
    for (int i = 0; i < standing.size(); i++) {
      if (standing.get(i).scope() instanceof Scope.Globally) {
        all.add(statements.get(i));
      }
    }
    return moments.possible(all);
  }

  /** What a rule demands to happen must be possible at some moment by the standing rules. */
  private void demand(Rule rule) {
    Expression in = scope(rule);
    if (rule.pattern() instanceof Pattern.Sometime p) {
      demand(rule, in, all(in, p.what()), "'" + p.what() + "' can never come");
    } else if (rule.pattern() instanceof Pattern.Response p) {
      Expression then = p.withinMicros() == null ? all(in, p.then()) : p.then();
      demand(rule, all(in, p.when()), then, "'" + p.then() + "' can never come");
    } else if (rule.pattern() instanceof Pattern.Holds p) {
      Expression when = all(in, p.when());
      demand(
          rule,
          when,
          all(when, p.then()),
          "'" + p.then() + "' can't be the case while '" + p.when() + "' is");
    } else if (rule.pattern() instanceof Pattern.Recurs p) {
      demand(rule, in, all(in, p.what()), "'" + p.what() + "' can never come");
    }
  }

  private void demand(Rule rule, Expression trigger, Expression demanded, String reason) {
    if (!impossible(trigger) && impossible(demanded)) {
      List<Rule> concerned = new ArrayList<>(List.of(rule));
      concerned.addAll(core(standing, List.of(demanded)));
      report(concerned, reason);
    }
  }

  private void pairs() {
    for (Rule a : rules) {
      for (Rule b : rules) {
        if (a != b && scopesMeet(a, b)) {
          String reason = PairReasons.reason(a, b, moments, statements);
          if (reason != null) {
            report(List.of(a, b), reason);
          }
        }
      }
    }
  }

  private boolean scopesMeet(Rule a, Rule b) {
    if (a.scope().equals(b.scope())
        || a.scope() instanceof Scope.Globally
        || b.scope() instanceof Scope.Globally) {
      return true;
    }
    return a.scope() instanceof Scope.While s
        && b.scope() instanceof Scope.While t
        && (moments.follows(s.during(), t.during()) || moments.follows(t.during(), s.during()));
  }

  /** Warns of a rule that can't be broken. */
  private void idle(Rule rule) {
    Expression in = scope(rule);
    List<Expression> e = rule.pattern().expressions();
    Expression first = e.get(0);
    if (!moments.possible(in)) {
      warn(rule, "its scope, '" + in + "', is never the case");
    } else if (rule.pattern() instanceof Pattern.Always
        || rule.pattern() instanceof Pattern.Recurs) {
      warnIf(moments.follows(first, in), rule, "'" + first + "' is always the case");
    } else if (!(rule.pattern() instanceof Pattern.Sometime)) {
      warnIf(!moments.possible(in, first), rule, "'" + first + "' is never the case");
      boolean duration =
          rule.pattern() instanceof Pattern.AtLeast || rule.pattern() instanceof Pattern.AtMost;
      warnIf(duration && moments.follows(first, in), rule, "'" + first + "' is always the case");
      boolean answers =
          rule.pattern() instanceof Pattern.Response || rule.pattern() instanceof Pattern.OnlyAfter;
      if (answers && moments.possible(in, first)) {
        String reason = "whenever '" + first + "' is the case, '" + e.get(1) + "' is as well";
        warnIf(moments.follows(e.get(1), in, first), rule, reason);
      }
      if (rule.pattern() instanceof Pattern.Holds p) {
        warnIf(moments.follows(p.then(), in), rule, "'" + p.then() + "' is always the case");
      }
    }
  }

  private void warnIf(boolean idle, Rule rule, String reason) {
    if (idle) {
      warn(rule, reason);
    }
  }

  private void warn(Rule rule, String reason) {
    found.add(new Contradiction(List.of(rule.name()), "it can't be broken: " + reason, true));
  }

  private void report(List<Rule> concerned, String reason) {
    List<String> names = concerned.stream().map(Rule::name).toList();
    found.add(new Contradiction(names, reason, false));
  }

  /** By the standing rules. */
  private boolean impossible(Expression... further) {
    List<Expression> all = new ArrayList<>(statements);
    all.addAll(List.of(further));
    return !moments.possible(all);
  }

  /** Standing rules all of which are needed to make it impossible. */
  private List<Rule> core(List<Rule> of, List<Expression> further) {
    List<Rule> core = new ArrayList<>(of);
    for (Rule rule : of) {
      List<Expression> rest = new ArrayList<>(further);
      for (Rule other : core) {
        if (other != rule) {
          rest.add(statements.get(standing.indexOf(other)));
        }
      }
      if (!moments.possible(rest)) {
        core.remove(rule);
      }
    }
    return core;
  }

  /** What is the case at every moment of a scope. */
  private static Expression scope(Rule rule) {
    if (rule.scope() instanceof Scope.While s) {
      return s.during();
    }
    return rule.scope() instanceof Scope.Before s ? not(s.event()) : new Expression.All(List.of());
  }

  private static Expression not(Expression e) {
    return new Expression.Not(e);
  }

  private static Expression all(Expression... e) {
    return new Expression.All(List.of(e));
  }

  private static Expression any(Expression... e) {
    return new Expression.Any(List.of(e));
  }
}
