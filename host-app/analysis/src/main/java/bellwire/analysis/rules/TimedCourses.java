package bellwire.analysis.rules;

/** The patterns of one stretch with a bound. */
final class TimedCourses {
  private static final int OFF = 1;
  private static final int ON = 2;

  /** On since before the scope began. */
  private static final int EXEMPT = 3;

  private TimedCourses() {}

  /** Bounded response: the stop-watch runs from when the first came without the second. */
  static final class Response extends Course {
    private static final int IDLE = 1;
    private static final int WAITING = 2;
    private final Stopwatch watch;

    Response(Scope scope, Stopwatch watch) {
      super(scope);
      this.watch = watch;
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(IDLE, 0, 0);
      respond(h, false, letter, earliest, latest, tally);
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      respond(h, first(h.letter), letter, earliest, latest, tally);
    }

    private void respond(
        Hypothesis h, boolean before, int letter, long earliest, long latest, Tally tally) {
      if (h.state == WAITING) {
        if (second(letter)) {
          watch.closeUpper(h, earliest, latest, tally);
          h.start(IDLE, 0, 0);
        }
      } else if (first(letter) && !second(letter)) {
        h.start(WAITING, earliest, latest);
      } else if (first(letter) && !before) {
        watch.atOnce(h, true, earliest, latest, tally);
      }
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == WAITING) {
        watch.dropUpper(h, earliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == WAITING) {
        watch.endUpper(h, micros, tally);
      }
    }
  }

  /** Minimum and maximum duration: what they have in common. */
  private abstract static class Stretch extends Course {
    final Stopwatch watch;

    Stretch(Scope scope, Stopwatch watch) {
      super(scope);
      this.watch = watch;
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      h.start(first(letter) ? EXEMPT : OFF, 0, 0);
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      if (first(letter) && h.state == OFF) {
        h.start(ON, earliest, latest);
      } else if (!first(letter) && h.state != OFF) {
        if (h.state == ON) {
          close(h, earliest, latest, tally);
        }
        h.start(OFF, 0, 0);
      }
    }

    abstract void close(Hypothesis h, long earliest, long latest, Tally tally);
  }

  static final class AtLeast extends Stretch {
    AtLeast(Scope scope, Stopwatch watch) {
      super(scope, watch);
    }

    @Override
    void close(Hypothesis h, long earliest, long latest, Tally tally) {
      watch.closeLower(h, earliest, latest, tally);
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == ON) {
        watch.dropLower(h, earliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == ON) {
        watch.endLower(h, micros, tally);
      }
    }
  }

  static final class AtMost extends Stretch {
    AtMost(Scope scope, Stopwatch watch) {
      super(scope, watch);
    }

    @Override
    void close(Hypothesis h, long earliest, long latest, Tally tally) {
      watch.closeUpper(h, earliest, latest, tally);
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == ON) {
        watch.dropUpper(h, earliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == ON) {
        watch.endUpper(h, micros, tally);
      }
    }
  }

  /** Bounded recurrence: the stop-watch runs while it is away. */
  static final class Recurs extends Course {
    private final Stopwatch watch;

    Recurs(Scope scope, Stopwatch watch) {
      super(scope);
      this.watch = watch;
    }

    @Override
    void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      if (first(letter)) {
        watch.atOnce(h, true, earliest, latest, tally);
        h.start(ON, 0, 0);
      } else {
        h.start(OFF, earliest, latest);
      }
    }

    @Override
    void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
      if (first(letter) && h.state == OFF) {
        watch.closeUpper(h, earliest, latest, tally);
        h.start(ON, 0, 0);
      } else if (!first(letter) && h.state == ON) {
        h.start(OFF, earliest, latest);
      }
    }

    @Override
    void leave(Hypothesis h, long earliest, long latest, Tally tally) {
      if (h.state == OFF) {
        watch.dropUpper(h, earliest, latest, tally);
      }
    }

    @Override
    void end(Hypothesis h, long micros, Tally tally) {
      if (h.state == OFF) {
        watch.endUpper(h, micros, tally);
      }
    }
  }
}
