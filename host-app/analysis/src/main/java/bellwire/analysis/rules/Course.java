package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;

/**
 * How a rule goes through the letters of a trace: a pattern's states and its one stop-watch, in one
 * stretch of the scope after another.
 */
abstract class Course {
  private final Scope scope;

  Course(Scope scope) {
    this.scope = scope;
  }

  static Course of(Rule rule, double clockPpm) {
    Scope scope = rule.scope();
    Pattern pattern = rule.pattern();
    if (pattern instanceof Pattern.Never) {
      return new UntimedCourses.Throughout(scope, false);
    } else if (pattern instanceof Pattern.Always) {
      return new UntimedCourses.Throughout(scope, true);
    } else if (pattern instanceof Pattern.Sometime) {
      return new UntimedCourses.Existence(scope);
    } else if (pattern instanceof Pattern.OnlyAfter) {
      return new UntimedCourses.Precedence(scope);
    } else if (pattern instanceof Pattern.Response p) {
      Long within = p.withinMicros();
      return within == null
          ? new UntimedCourses.Response(scope)
          : new TimedCourses.Response(scope, new Stopwatch(within, clockPpm));
    } else if (pattern instanceof Pattern.Holds p) {
      return new HoldsCourse(scope, new Stopwatch(p.forMicros(), clockPpm));
    } else if (pattern instanceof Pattern.AtLeast p) {
      return new TimedCourses.AtLeast(scope, new Stopwatch(p.micros(), clockPpm));
    } else if (pattern instanceof Pattern.AtMost p) {
      return new TimedCourses.AtMost(scope, new Stopwatch(p.micros(), clockPpm));
    }
    Pattern.Recurs p = (Pattern.Recurs) pattern;
    return new TimedCourses.Recurs(scope, new Stopwatch(p.withinMicros(), clockPpm));
  }

  /** The hypothesis at the beginning of a trace. */
  final Hypothesis begin(int letter, long micros, Tally tally) {
    Hypothesis h = new Hypothesis(letter);
    if (inScope(h, letter)) {
      enter(h, letter, micros, micros, tally);
    }
    return h;
  }

  /** The letter changes at a moment between the two. */
  final void step(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
    boolean in = inScope(h, letter);
    if (h.state == Hypothesis.OUTSIDE) {
      if (in) {
        enter(h, letter, earliest, latest, tally);
      }
    } else if (in) {
      move(h, letter, earliest, latest, tally);
    } else {
      leave(h, earliest, latest, tally);
      h.state = Hypothesis.OUTSIDE;
    }
    if (h.state == Hypothesis.OUTSIDE) {
      h.start(Hypothesis.OUTSIDE, 0, 0);
    }
    h.letter = letter;
  }

  private boolean inScope(Hypothesis h, int letter) {
    boolean holds = (letter & Letters.SCOPE) != 0;
    if (scope instanceof Scope.Globally) {
      return true;
    } else if (scope instanceof Scope.While) {
      return holds;
    }
    h.latched |= holds;
    return scope instanceof Scope.After ? h.latched : !h.latched;
  }

  /** The scope begins. */
  abstract void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally);

  /** The letter changes within the scope; {@code h.letter} is still the old one. */
  abstract void move(Hypothesis h, int letter, long earliest, long latest, Tally tally);

  /** The scope ends. */
  abstract void leave(Hypothesis h, long earliest, long latest, Tally tally);

  /** The trace ends within the scope. */
  abstract void end(Hypothesis h, long micros, Tally tally);

  static boolean first(int letter) {
    return (letter & Letters.FIRST) != 0;
  }

  static boolean second(int letter) {
    return (letter & Letters.SECOND) != 0;
  }

  /** Judges without a time, from the start of the stop-watch. */
  static void judge(Hypothesis h, Verdict verdict, long from, long to, Tally tally) {
    h.judge(verdict);
    tally.add(new Occasion(from, to, verdict, null, null));
  }
}
