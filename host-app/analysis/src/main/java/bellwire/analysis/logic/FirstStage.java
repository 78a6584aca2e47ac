package bellwire.analysis.logic;

/** A future window of the trace's first moment alone: two numbers, however long it is. */
final class FirstStage extends Stage {

  private static final double NEGATIVE = Double.NEGATIVE_INFINITY;
  private static final double POSITIVE = Double.POSITIVE_INFINITY;

  private final boolean every;
  private final boolean promise;
  private final long firstMicros;

  /** First moment behind the window. */
  private final long behindMicros;

  private final long doneMicros;
  private double low = POSITIVE;
  private double high = POSITIVE;

  /**
   * @param promise the operator it is, or is part of, has an upper bound
   */
  FirstStage(long beginMicros, boolean every, Bounds bounds, boolean promise) {
    super(beginMicros);
    this.promise = promise;
    this.every = every;
    this.firstMicros = beginMicros + bounds.fromMicros();
    this.behindMicros = bounds.bounded() ? beginMicros + bounds.toMicros() + 1 : Long.MAX_VALUE;
    this.doneMicros = beginMicros + 1;
  }

  @Override
  void take(int port, long toMicros, double takenLow, double takenHigh) {
    if (givenMicros == doneMicros || toMicros <= firstMicros) {
      return;
    }
    // Pieces come in order, so that one that begins behind the window finds it done.
    low = Math.min(low, every ? takenLow : -takenHigh);
    high = Math.min(high, every ? takenHigh : -takenLow);
    if (toMicros >= behindMicros || high == NEGATIVE) {
      giveFirst();
    }
  }

  /** Whether it looks at every moment, so that their order does not matter. */
  boolean looksAtAll() {
    return firstMicros == doneMicros - 1 && behindMicros == Long.MAX_VALUE;
  }

  boolean every() {
    return every;
  }

  private void giveFirst() {
    give(doneMicros, every ? low : -high, every ? high : -low);
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    if (end.unknownBeyond(promise)) {
      low = NEGATIVE;
    }
    giveFirst();
    giveEnd(endMicros, end);
  }

  @Override
  int held() {
    return 1;
  }

  @Override
  protected void unshare() {}
}
