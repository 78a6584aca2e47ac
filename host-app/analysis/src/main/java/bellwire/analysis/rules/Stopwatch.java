package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;

/**
 * Holds the time since a hypothesis' start against a bound. A true duration is the device's times 1
 * ± the clock's error, rounded outwards to whole microseconds.
 */
final class Stopwatch {
  private static final double MILLION = 1e6;

  private final long bound;
  private final double clockPpm;

  Stopwatch(long boundMicros, double clockPpm) {
    bound = boundMicros;
    this.clockPpm = clockPpm;
  }

  /** From the hypothesis' start to a moment between the two. */
  Span elapsed(Hypothesis h, long earliest, long latest) {
    long low = Math.max(0, earliest - h.sinceLatest);
    long high = Math.max(0, latest - h.sinceEarliest);
    return new Span(low - error(low), high + error(high));
  }

  private long error(long micros) {
    return clockPpm == 0 ? 0 : Math.min(micros, (long) Math.ceil(micros * clockPpm / MILLION));
  }

  /** Against an upper bound: at most so long. */
  Verdict atMost(Span elapsed) {
    return verdict(upperMargin(elapsed));
  }

  /** Against a lower bound: at least so long. */
  Verdict atLeast(Span elapsed) {
    return verdict(lowerMargin(elapsed));
  }

  Span upperMargin(Span elapsed) {
    return new Span(bound - elapsed.highMicros(), bound - elapsed.lowMicros());
  }

  Span lowerMargin(Span elapsed) {
    return new Span(elapsed.lowMicros() - bound, elapsed.highMicros() - bound);
  }

  private static Verdict verdict(Span margin) {
    if (margin.lowMicros() >= 0) {
      return Verdict.KEPT;
    }
    return margin.highMicros() < 0 ? Verdict.BROKEN : Verdict.UNDECIDED;
  }

  /** Ends an occasion with an upper bound. */
  void closeUpper(Hypothesis h, long earliest, long latest, Tally tally) {
    Span elapsed = elapsed(h, earliest, latest);
    close(h, elapsed, upperMargin(elapsed), latest, tally);
  }

  void closeLower(Hypothesis h, long earliest, long latest, Tally tally) {
    Span elapsed = elapsed(h, earliest, latest);
    close(h, elapsed, lowerMargin(elapsed), latest, tally);
  }

  private static void close(Hypothesis h, Span elapsed, Span margin, long latest, Tally tally) {
    Verdict verdict = verdict(margin);
    h.judge(verdict);
    h.narrow(margin);
    tally.add(new Occasion(h.sinceEarliest, latest, verdict, elapsed, margin));
  }

  /** The scope ends before what had an upper bound was over: dropped unless overdue. */
  void dropUpper(Hypothesis h, long earliest, long latest, Tally tally) {
    Span elapsed = elapsed(h, earliest, latest);
    Span margin = upperMargin(elapsed);
    Verdict verdict = verdict(margin);
    h.judge(verdict);
    h.narrow(margin);
    if (verdict != Verdict.KEPT) {
      tally.add(new Occasion(h.sinceEarliest, latest, verdict, elapsed, margin));
    }
  }

  /** The scope ends before what had a lower bound was over: counted if long enough already. */
  void dropLower(Hypothesis h, long earliest, long latest, Tally tally) {
    Span elapsed = openEnded(elapsed(h, earliest, latest));
    Span margin = lowerMargin(elapsed);
    if (verdict(margin) == Verdict.KEPT) {
      tally.add(new Occasion(h.sinceEarliest, latest, Verdict.KEPT, elapsed, margin));
    }
  }

  /** The trace ends before what had an upper bound was over. */
  void endUpper(Hypothesis h, long micros, Tally tally) {
    Span elapsed = openEnded(elapsed(h, micros, micros));
    long room = bound - elapsed.lowMicros();
    Verdict verdict = room < 0 ? Verdict.BROKEN : Verdict.UNDECIDED;
    Span margin = new Span(Long.MIN_VALUE, room);
    h.judge(verdict);
    h.narrow(margin);
    tally.add(new Occasion(h.sinceEarliest, micros, verdict, elapsed, margin));
  }

  /** The trace ends before what had a lower bound was over. */
  void endLower(Hypothesis h, long micros, Tally tally) {
    Span elapsed = openEnded(elapsed(h, micros, micros));
    Span margin = new Span(elapsed.lowMicros() - bound, Long.MAX_VALUE);
    Verdict verdict = verdict(margin);
    h.judge(verdict);
    h.narrow(margin);
    tally.add(new Occasion(h.sinceEarliest, micros, verdict, elapsed, margin));
  }

  private static Span openEnded(Span elapsed) {
    return new Span(elapsed.lowMicros(), Long.MAX_VALUE);
  }

  /** Something is there, or gone, at once. */
  void atOnce(Hypothesis h, boolean upper, long earliest, long latest, Tally tally) {
    Span none = new Span(0, 0);
    Span margin = upper ? upperMargin(none) : lowerMargin(none);
    Verdict verdict = verdict(margin);
    h.judge(verdict);
    h.narrow(margin);
    tally.add(new Occasion(earliest, latest, verdict, none, margin));
  }
}
