package bellwire.analysis.rules;

import bellwire.analysis.logic.Bounds;
import bellwire.analysis.logic.Formula;
import org.jspecify.annotations.Nullable;

/**
 * What a rule means: its formula of signal temporal logic, as docs/rules.md tabulates them. Its
 * outermost operator ranges over the moments of the trace; what lies after the trace is unknown.
 */
public final class RuleFormula {
  /** The scope as a formula, null if it is everywhere. */
  private final @Nullable Formula in;

  private RuleFormula(Scope scope) {
    if (scope instanceof Scope.While s) {
      in = of(s.during());
    } else if (scope instanceof Scope.After s) {
      in = Formula.once(of(s.event()));
    } else if (scope instanceof Scope.Before s) {
      in = Formula.historically(Formula.not(of(s.event())));
    } else {
      in = null;
    }
  }

  public static Formula of(Rule rule) {
    return new RuleFormula(rule.scope()).of(rule.pattern());
  }

  public static Formula of(Expression expression) {
    if (expression instanceof Expression.Fact fact) {
      return Formula.atom(fact.name());
    } else if (expression instanceof Expression.Not not) {
      return Formula.not(of(not.operand()));
    } else if (expression instanceof Expression.All all) {
      return Formula.all(all.operands().stream().map(RuleFormula::of).toList());
    }
    Expression.Any any = (Expression.Any) expression;
    return Formula.any(any.operands().stream().map(RuleFormula::of).toList());
  }

  private Formula of(Pattern pattern) {
    if (pattern instanceof Pattern.Never p) {
      return throughout(Formula.not(of(p.what())));
    } else if (pattern instanceof Pattern.Always p) {
      return throughout(of(p.what()));
    } else if (pattern instanceof Pattern.Sometime p) {
      return sometime(of(p.what()));
    } else if (pattern instanceof Pattern.OnlyAfter p) {
      return whenever(of(p.what()), sinceInScope(of(p.first())));
    } else if (pattern instanceof Pattern.Response p) {
      Long within = p.withinMicros();
      Formula then = of(p.then());
      return whenever(of(p.when()), within == null ? untilInScope(then) : soon(within, then));
    } else if (pattern instanceof Pattern.Holds p) {
      return whenever(of(p.when()), lasting(p.forMicros(), of(p.then())));
    } else if (pattern instanceof Pattern.AtLeast p) {
      Formula what = of(p.what());
      return whenever(beginning(what), uncut(p.micros(), what));
    } else if (pattern instanceof Pattern.AtMost p) {
      Formula what = of(p.what());
      return whenever(beginning(what), soon(p.micros(), Formula.not(what)));
    }
    Pattern.Recurs p = (Pattern.Recurs) pattern;
    return throughout(soon(p.withinMicros(), of(p.what())));
  }

  private Formula throughout(Formula what) {
    return Formula.always(in == null ? what : Formula.implies(in, what));
  }

  private Formula whenever(Formula when, Formula then) {
    return Formula.always(Formula.implies(inScope(when), then));
  }

  private Formula inScope(Formula what) {
    return in == null ? what : Formula.and(in, what);
  }

  private Formula orScopeEnds(Formula what) {
    return in == null ? what : Formula.or(what, Formula.not(in));
  }

  private Formula sometime(Formula what) {
    return in == null
        ? Formula.eventually(what)
        : throughout(Formula.or(sinceInScope(what), untilInScope(what)));
  }

  /** Earlier in the same stretch of the scope. */
  private Formula sinceInScope(Formula what) {
    return in == null ? Formula.once(what) : Formula.since(in, inScope(what));
  }

  /** Later in the same stretch of the scope. */
  private Formula untilInScope(Formula what) {
    return in == null ? Formula.eventually(what) : Formula.until(in, inScope(what));
  }

  private Formula soon(long micros, Formula what) {
    return Formula.eventually(Bounds.within(micros), orScopeEnds(what));
  }

  /** From now on for so long, the end included, or to the end of the scope. */
  private Formula lasting(long micros, Formula what) {
    Bounds bounds = Bounds.within(micros);
    return in == null
        ? Formula.always(bounds, what)
        : Formula.weakUntil(what, bounds, Formula.not(in));
  }

  /** From now on for so long, the end not included, or to the end of the scope. */
  private Formula uncut(long micros, Formula what) {
    Formula whole = Formula.until(what, new Bounds(micros, micros), Formula.constant(true));
    return in == null
        ? whole
        : Formula.or(whole, Formula.until(what, Bounds.within(micros), Formula.not(in)));
  }

  /** Becomes the case within a stretch of the scope in which it was not before. */
  private Formula beginning(Formula what) {
    return Formula.and(Formula.rise(what), sinceInScope(Formula.not(what)));
  }
}
