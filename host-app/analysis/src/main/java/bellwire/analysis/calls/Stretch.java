package bellwire.analysis.calls;

/** Ones with only such gaps between them as a closed contact explains. */
final class Stretch {
  /** A call conducts for at most so much of a half period: 30 V and the lowest threshold, 0.88. */
  private static final double LONGEST_RUN = 0.93;

  private static final double SOONEST = 0.7;
  private static final int MISSED = 3;

  final long riseEarliest;
  final long riseLatest;
  final long firstOne;
  long lastOne;
  int gaps;
  long fallEarliest;
  long fallLatest;

  /** Gaps that follow the one before too soon for the mains. */
  private int soon;

  private long gapMiddle = Long.MIN_VALUE / 2;

  /** The two longest runs of ones. */
  private final long[] longest = new long[2];

  Stretch(long riseEarliest, long riseLatest, long firstOne) {
    this.riseEarliest = riseEarliest;
    this.riseLatest = riseLatest;
    this.firstOne = firstOne;
    lastOne = firstOne;
  }

  void gap(long beforeMicros, long afterMicros) {
    long middle = (beforeMicros + afterMicros) / 2;
    if (gaps > 0 && middle - gapMiddle < SOONEST * MainsFit.SHORTEST_MICROS) {
      soon++;
    }
    gapMiddle = middle;
    gaps++;
  }

  void run(long firstMicros, long lastMicros) {
    long length = lastMicros - firstMicros;
    longest[1] = Math.max(longest[1], Math.min(length, longest[0]));
    longest[0] = Math.max(longest[0], length);
    lastOne = lastMicros;
  }

  /**
   * Whether its ones last no longer, and its gaps come no faster, than those of a call. One gap may
   * have gone by between two samples, where there are others.
   *
   * @param certain whether the half period is known from this lead
   */
  boolean likeCall(double halfPeriodMicros, boolean certain) {
    long telling = longest[gaps >= MISSED ? 1 : 0];
    return gaps >= (certain ? 1 : MISSED)
        && telling < LONGEST_RUN * halfPeriodMicros
        && 2 * soon <= gaps;
  }

  /** Whether it may be a contact's touch: ones, no longer than a call has them. */
  boolean likeTouch(double halfPeriodMicros) {
    return gaps == 0 && longest[0] < LONGEST_RUN * halfPeriodMicros;
  }
}
