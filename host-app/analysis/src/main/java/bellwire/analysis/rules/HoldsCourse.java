package bellwire.analysis.rules;

/**
 * Bounded invariance: while the first is the case the second must hold, and then as long as the
 * stop-watch says, which starts when the first ceases.
 */
final class HoldsCourse extends Course {
  private static final int IDLE = 1;
  private static final int REQUIRED = 2;
  private static final int RUNNING = 3;

  /** The first is the case, the second not: broken, told once. */
  private static final int LOST = 4;

  private final Stopwatch watch;

  HoldsCourse(Scope scope, Stopwatch watch) {
    super(scope);
    this.watch = watch;
  }

  @Override
  void enter(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
    h.start(IDLE, 0, 0);
    move(h, letter, earliest, latest, tally);
  }

  @Override
  void move(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
    if (h.state == RUNNING) {
      if (!second(letter)) {
        watch.closeLower(h, earliest, latest, tally);
        h.start(IDLE, 0, 0);
      } else if (first(letter)) {
        watch.dropLower(h, earliest, latest, tally);
      }
    }
    if (first(letter)) {
      if (second(letter)) {
        h.start(REQUIRED, 0, 0);
      } else if (h.state != LOST) {
        watch.atOnce(h, false, earliest, latest, tally);
        h.start(LOST, 0, 0);
      }
    } else if (h.state == REQUIRED) {
      cease(h, letter, earliest, latest, tally);
    } else if (h.state == LOST) {
      h.start(IDLE, 0, 0);
    }
  }

  private void cease(Hypothesis h, int letter, long earliest, long latest, Tally tally) {
    if (second(letter)) {
      h.start(RUNNING, earliest, latest);
    } else {
      watch.atOnce(h, false, earliest, latest, tally);
      h.start(IDLE, 0, 0);
    }
  }

  @Override
  void leave(Hypothesis h, long earliest, long latest, Tally tally) {
    if (h.state == RUNNING) {
      watch.dropLower(h, earliest, latest, tally);
    }
  }

  @Override
  void end(Hypothesis h, long micros, Tally tally) {
    if (h.state == RUNNING) {
      watch.endLower(h, micros, tally);
    } else if (h.state == REQUIRED) {
      h.start(REQUIRED, micros, micros);
      watch.endLower(h, micros, tally);
    }
  }
}
