package bellwire.analysis.logic;

/**
 * {@code left until right}, told so many microseconds earlier than it happens; right may come at
 * any later moment, or with a width only that much later.
 */
final class UntilStage extends PairStage {

  private static final double NEGATIVE = Double.NEGATIVE_INFINITY;
  private static final double POSITIVE = Double.POSITIVE_INFINITY;

  private final boolean weak;
  private final long earlierMicros;
  private final long widthMicros;
  private final long lastMicros;
  private Promise lows;
  private Promise highs;

  /**
   * @param widthMicros how long is waited, {@link Bounds#UNBOUNDED} for ever
   * @param weak right need not come; only without a width
   * @param firstOnly only the value at the trace's beginning is wanted
   */
  UntilStage(
      long beginMicros, long earlierMicros, long widthMicros, boolean weak, boolean firstOnly) {
    super(beginMicros);
    this.weak = weak;
    this.earlierMicros = earlierMicros;
    this.widthMicros = widthMicros;
    this.lastMicros = firstOnly ? beginMicros + earlierMicros + 1 : Long.MAX_VALUE;
    this.lows = new Promise(beginMicros, weak);
    this.highs = new Promise(beginMicros, weak);
  }

  private boolean bounded() {
    return widthMicros != Bounds.UNBOUNDED;
  }

  @Override
  protected void takePair(long to, double aLow, double aHigh, double bLow, double bHigh) {
    lows.take(to, aLow, bLow, lastMicros);
    highs.take(to, aHigh, bHigh, lastMicros);
    if (bounded()) {
      force(to - widthMicros);
    }
    giveFinal(Long.MAX_VALUE);
  }

  @Override
  long steadyFromMicros() {
    // With a width, moments are made final one by one.
    long from = Math.max(lows.steadyFromMicros(), highs.steadyFromMicros());
    return bounded() || from == Long.MAX_VALUE ? Long.MAX_VALUE : from - earlierMicros;
  }

  @Override
  long steadyToMicros() {
    return lows.seenMicros() - earlierMicros;
  }

  private void force(long micros) {
    lows.force(micros);
    highs.force(micros);
  }

  private void giveFinal(long endMicros) {
    PieceQueue low = lows.finals();
    PieceQueue high = highs.finals();
    while (!low.isEmpty() && !high.isEmpty()) {
      long to = Math.min(low.to(), high.to());
      give(Math.min(to - earlierMicros, endMicros), low.low(), high.high());
      low.dropUntil(to);
      high.dropUntil(to);
    }
  }

  @Override
  protected void endPair(long endMicros, TraceEnd end) {
    if (end.unknownBeyond(bounded())) {
      long to = endMicros + earlierMicros + 1;
      lows.take(to, NEGATIVE, NEGATIVE, lastMicros);
      highs.take(to, POSITIVE, POSITIVE, lastMicros);
    }
    force(Long.MAX_VALUE);
    giveFinal(endMicros);
    double beyond = weak ? POSITIVE : NEGATIVE;
    give(endMicros, beyond, beyond);
    giveEnd(endMicros, end);
  }

  @Override
  int held() {
    return super.held() + lows.held() + highs.held();
  }

  @Override
  protected void unshare() {
    super.unshare();
    lows = lows.clone();
    highs = highs.clone();
  }
}
