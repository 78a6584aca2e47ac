package bellwire.analysis.calls;

/**
 * One lead with the control's own AC, as open or closed: docs/theory.md, equations (53) to (55). A
 * one says voltage at that moment; a zero by itself says nothing, for each half period has its gap.
 * What proves an open contact is that zeros go on for longer than the widest gap of a call.
 */
final class AcContact {
  /** A call's gap takes at most this part of a half period, equation (52). */
  static final double WIDEST_GAP = 0.4;

  /**
   * Samples further apart may have a whole conduction between them, which is at least 0.6 of the
   * half period of 65 Hz.
   */
  static final int DENSE_MICROS = 4500;

  static final long NEVER = Long.MAX_VALUE;

  /** What is found out about the lead, always at the latest sample. */
  interface Events {
    /** It was open, and has closed between these moments. */
    void closed(long earliestMicros, long latestMicros);

    /** It was closed, and has opened between these moments. */
    void opened(long earliestMicros, long latestMicros);

    /** A run of zeros that a closed contact explains, with the ones on either side. */
    void gap(long beforeMicros, long firstMicros, long lastMicros, long afterMicros);

    /** A run of ones, with the zeros on either side. */
    void run(long beforeMicros, long firstMicros, long lastMicros, long afterMicros);
  }

  private final SampleTimes times;
  private final int delayMicros;
  private final Events events;
  private double widestGapMicros = WIDEST_GAP * MainsFit.LONGEST_MICROS;

  private boolean started;
  private boolean nothingYet;
  private boolean one;
  private boolean proven;
  private long startMicros;
  private long lastOneBegin;
  private long lastOneEnd;
  private long firstZeroIndex;
  private long firstZeroBegin;
  private long chainEnd;
  private long runBefore;
  private long runFirst;

  AcContact(SampleTimes times, int delayMicros, Events events) {
    this.times = times;
    this.delayMicros = delayMicros;
    this.events = events;
  }

  /** Forgets everything: the next sample is the first after this moment. */
  void restart(long micros) {
    started = false;
    startMicros = micros;
  }

  void halfPeriod(double micros) {
    widestGapMicros = WIDEST_GAP * 1.02 * micros;
  }

  /** Whether the contact is proved open at the latest sample. */
  boolean open() {
    return started && proven;
  }

  /** Begin and end of the last sample that was a one; the first sample's where there was none. */
  long lastOneBegin() {
    return lastOneBegin;
  }

  long lastOneEnd() {
    return lastOneEnd;
  }

  /** Begin of the latest run of ones. */
  long runFirst() {
    return runFirst;
  }

  /** Look again at the first sample that begins after this, though the bit stays. */
  long attendMicros() {
    return started && !one && !proven ? chainEnd + delayMicros + (long) widestGapMicros : NEVER;
  }

  /** The latest sample's bit differs from the one before, or is the first. */
  void changed(boolean bit) {
    long k = times.latest();
    boolean first = !started;
    started = true;
    one = bit;
    if (first) {
      start(k);
    } else if (bit) {
      rise(k);
    } else {
      lastOneBegin = times.begin(k - 1);
      lastOneEnd = times.end(k - 1);
      zeros(k);
      events.run(runBefore, runFirst, lastOneBegin, firstZeroBegin);
    }
  }

  /** The latest sample is still a zero, and {@link #attendMicros} has passed. */
  void prove() {
    long k = times.latest();
    if (started && !one && !proven && times.begin(k) > attendMicros()) {
      proven = true;
      events.opened(
          nothingYet ? startMicros : Math.max(startMicros, lastOneBegin - delayMicros),
          times.end(k));
      nothingYet = false;
    }
  }

  /** Between the latest sample and the one before a conduction may have been missed. */
  void sparse() {
    chainEnd = times.end(times.latest());
  }

  /**
   * The latest moment at which a contact that is open, or not yet seen closed, can be shown to have
   * been open: a contact closed since before could not have given the zeros up to the latest.
   */
  long openSince(long anchorIndex) {
    long anchor = anchorIndex;
    for (long j = anchorIndex - 1; j >= Math.max(firstZeroIndex, times.oldest()); j--) {
      if (times.end(j + 1) - times.begin(j) > DENSE_MICROS) {
        anchor = j;
      } else if (times.begin(anchor) - times.end(j) - delayMicros > widestGapMicros) {
        return Math.max(startMicros, times.begin(j) - delayMicros);
      }
    }
    return Math.max(startMicros, firstZeroBegin - delayMicros);
  }

  private void start(long k) {
    lastOneBegin = times.begin(k);
    lastOneEnd = times.end(k);
    runBefore = times.begin(k);
    runFirst = times.begin(k);
    nothingYet = !one;
    zeros(k);
    if (one) {
      events.closed(startMicros, times.end(k));
    }
  }

  private void zeros(long k) {
    proven = false;
    firstZeroIndex = k;
    firstZeroBegin = times.begin(k);
    chainEnd = times.end(k);
  }

  private void rise(long k) {
    boolean wasOpen = proven;
    boolean first = nothingYet;
    proven = false;
    nothingYet = false;
    runBefore = times.begin(k - 1);
    runFirst = times.begin(k);
    if (first) {
      events.closed(startMicros, times.end(k));
    } else if (wasOpen) {
      events.closed(openSince(k - 1), times.end(k));
    } else {
      events.gap(lastOneBegin, firstZeroBegin, times.begin(k - 1), times.begin(k));
    }
  }
}
