package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;

/** The patterns without a time. Their stop-watch only tells where an occasion began. */
final class UntimedCourses {
  private static final int WAITING = 1;
  private static final int MET = 2;

  private UntimedCourses() {}

  /** Never, always. Each stretch of the scope is an occasion, and each offence. */
  static final class Throughout extends Course {
    private static final int CLEAN = 1;
    private static final int OFFENDED = 2;
    private final boolean wanted;

    Throughout(Scope scope, boolean wanted) {
      super(scope);
      this.wanted = wanted;
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(CLEAN, earliest, latest);
      if (first(letter) != wanted) {
        offend(h, earliest, latest, tally);
      }
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      if (first(letter) != wanted && first(h.letter) == wanted) {
        offend(h, earliest, latest, tally);
      }
    }

    private static void offend(Hypothesis h, long earliest, long latest, Tally tally) {
      judge(h, Verdict.BROKEN, earliest, latest, tally);
      h.start(OFFENDED, 0, 0);
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == CLEAN) {
        judge(h, Verdict.KEPT, h.sinceEarliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      leave(h, micros, micros, tally);
    }
  }

  static final class Existence extends Course {
    Existence(Scope scope) {
      super(scope);
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(WAITING, earliest, latest);
      move(h, letter, earliest, latest, tally);
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      if (h.state == WAITING && first(letter)) {
        judge(h, Verdict.KEPT, h.sinceEarliest, latest, tally);
        h.start(MET, 0, 0);
      }
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == WAITING) {
        judge(h, Verdict.BROKEN, h.sinceEarliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == WAITING) {
        judge(h, Verdict.UNDECIDED, h.sinceEarliest, micros, tally);
      }
    }
  }

  /** Each coming of the first is an occasion. */
  static final class Precedence extends Course {
    Precedence(Scope scope) {
      super(scope);
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(WAITING, 0, 0);
      come(h, false, letter, earliest, latest, tally);
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      come(h, first(h.letter), letter, earliest, latest, tally);
    }

    private static void come(
        Hypothesis h, boolean before, int letter, long earliest, long latest, Tally tally) {
      if (second(letter)) {
        h.state = MET;
      }
      if (first(letter) && !before) {
        Verdict verdict = h.state == MET ? Verdict.KEPT : Verdict.BROKEN;
        judge(h, verdict, earliest, latest, tally);
      }
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {}

    @Override
    void end(Hypothesis h, long micros, Tally tally) {}
  }

  static final class Response extends Course {
    Response(Scope scope) {
      super(scope);
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(MET, 0, 0);
      respond(h, false, letter, earliest, latest, tally);
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      respond(h, first(h.letter), letter, earliest, latest, tally);
    }

    private static void respond(
        Hypothesis h, boolean before, int letter, long earliest, long latest, Tally tally) {
      if (h.state == WAITING) {
        if (second(letter)) {
          judge(h, Verdict.KEPT, h.sinceEarliest, latest, tally);
          h.start(MET, 0, 0);
        }
      } else if (first(letter) && !second(letter)) {
        h.start(WAITING, earliest, latest);
      } else if (first(letter) && !before) {
        judge(h, Verdict.KEPT, earliest, latest, tally);
      }
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == WAITING) {
        judge(h, Verdict.BROKEN, h.sinceEarliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == WAITING) {
        judge(h, Verdict.UNDECIDED, h.sinceEarliest, micros, tally);
      }
    }
  }
}
