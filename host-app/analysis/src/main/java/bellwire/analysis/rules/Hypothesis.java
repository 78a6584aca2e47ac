package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;

/**
 * Worlds in which a rule stands alike: same letter, same state, its stop-watch started within the
 * same interval.
 */
final class Hypothesis {
  /** State of a rule out of its scope; the others are the course's own, from 1. */
  static final int OUTSIDE = 0;

  int letter;
  int state = OUTSIDE;

  /** Whether the event of an after or before scope has come. */
  boolean latched;

  long sinceEarliest;
  long sinceLatest;

  /** Whether the rule is kept, and broken, in some of these worlds. */
  boolean canKeep = true;

  boolean canBreak;

  /** The same since doubts were last settled. */
  boolean keepsLately = true;

  /** Least room to the bound in the worst of these worlds, and in the best. */
  long marginLow = Long.MAX_VALUE;

  long marginHigh = Long.MAX_VALUE;

  Hypothesis(int letter) {
    this.letter = letter;
  }

  Hypothesis copy() {
    Hypothesis copy = new Hypothesis(letter);
    copy.state = state;
    copy.latched = latched;
    copy.sinceEarliest = sinceEarliest;
    copy.sinceLatest = sinceLatest;
    copy.canKeep = canKeep;
    copy.canBreak = canBreak;
    copy.keepsLately = keepsLately;
    copy.marginLow = marginLow;
    copy.marginHigh = marginHigh;
    return copy;
  }

  void start(int newState, long earliest, long latest) {
    state = newState;
    sinceEarliest = earliest;
    sinceLatest = latest;
  }

  void judge(Verdict verdict) {
    if (verdict != Verdict.KEPT) {
      canBreak = true;
    }
    if (verdict == Verdict.BROKEN) {
      canKeep = false;
      keepsLately = false;
    }
  }

  void narrow(Span margin) {
    marginLow = Math.min(marginLow, margin.lowMicros());
    marginHigh = Math.min(marginHigh, margin.highMicros());
  }

  boolean alike(Hypothesis other) {
    return letter == other.letter && state == other.state && latched == other.latched;
  }

  boolean sameStart(Hypothesis other) {
    return sinceEarliest == other.sinceEarliest && sinceLatest == other.sinceLatest;
  }

  /** Takes in another's worlds; returns whether that changed anything. */
  boolean merge(Hypothesis other) {
    boolean changed =
        other.sinceEarliest < sinceEarliest
            || other.sinceLatest > sinceLatest
            || (other.canKeep && !canKeep)
            || (other.canBreak && !canBreak)
            || (other.keepsLately && !keepsLately)
            || other.marginLow < marginLow
            || other.marginHigh > marginHigh;
    sinceEarliest = Math.min(sinceEarliest, other.sinceEarliest);
    sinceLatest = Math.max(sinceLatest, other.sinceLatest);
    canKeep |= other.canKeep;
    canBreak |= other.canBreak;
    keepsLately |= other.keepsLately;
    marginLow = Math.min(marginLow, other.marginLow);
    marginHigh = Math.max(marginHigh, other.marginHigh);
    return changed;
  }
}
