package bellwire.analysis.logic;

/**
 * The least value in a moving window, or the greatest: bounded future operators and all past ones.
 * A window from a to b ahead is one that trails by b - a behind the signal shifted forward by b.
 */
final class WindowStage extends Stage {

  private static final double NEGATIVE = Double.NEGATIVE_INFINITY;
  private static final double POSITIVE = Double.POSITIVE_INFINITY;

  private final boolean every;
  private final boolean future;
  private final boolean promise;
  private final long shiftMicros;

  /** {@link Bounds#UNBOUNDED} for a window back to the beginning. */
  private final long widthMicros;

  /** The shifted signal has been looked at up to here. */
  private long seenMicros;

  /** Past operators: shifted pieces whose time has not come. */
  private PieceQueue delayed = new PieceQueue();

  // Ends of pieces with their bounds, the least first, ends and values ascending.
  private Ranks lows = new Ranks();
  private Ranks highs = new Ranks();

  /**
   * @param promise the operator it is, or is part of, has an upper bound
   */
  WindowStage(long beginMicros, boolean every, boolean future, Bounds bounds, boolean promise) {
    super(beginMicros);
    this.promise = promise;
    this.every = every;
    this.future = future;
    this.shiftMicros = future ? -bounds.toMicros() : bounds.fromMicros();
    this.widthMicros =
        bounds.bounded() ? bounds.toMicros() - bounds.fromMicros() : Bounds.UNBOUNDED;
    this.seenMicros = future ? beginMicros + shiftMicros : beginMicros;
    if (!future && shiftMicros > 0) {
      // Before the trace there is nothing: neutral.
      delayed.add(beginMicros + shiftMicros, POSITIVE, POSITIVE);
    }
  }

  @Override
  void take(int port, long toMicros, double low, double high) {
    double least = every ? low : -high;
    double most = every ? high : -low;
    if (future || shiftMicros == 0) {
      slide(toMicros + (future ? shiftMicros : 0), least, most);
      return;
    }
    delayed.add(toMicros + shiftMicros, least, most);
    while (seenMicros < toMicros) {
      slide(Math.min(delayed.to(), toMicros), delayed.low(), delayed.high());
      delayed.dropUntil(seenMicros);
    }
  }

  private void slide(long toMicros, double low, double high) {
    enter(lows, toMicros, low);
    enter(highs, toMicros, high);
    long at = Math.max(seenMicros, givenMicros);
    while (at < toMicros) {
      leave(lows, at);
      leave(highs, at);
      at = Math.min(toMicros, Math.min(leaves(lows), leaves(highs)));
      if (every) {
        give(at, lows.first(), highs.first());
      } else {
        give(at, -highs.first(), -lows.first());
      }
    }
    seenMicros = toMicros;
  }

  private void enter(Ranks ranks, long endMicros, double value) {
    while (!ranks.isEmpty() && ranks.last() >= value) {
      ranks.removeLast();
    }
    if (ranks.isEmpty() || widthMicros != Bounds.UNBOUNDED) {
      ranks.addLast(endMicros, value);
    }
  }

  private long leaves(Ranks ranks) {
    return widthMicros == Bounds.UNBOUNDED ? Long.MAX_VALUE : ranks.firstAt() + widthMicros;
  }

  private void leave(Ranks ranks, long atMicros) {
    while (leaves(ranks) <= atMicros) {
      ranks.removeFirst();
    }
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    if (future && seenMicros < endMicros) {
      slide(endMicros, end.unknownBeyond(promise) ? NEGATIVE : POSITIVE, POSITIVE);
    }
    giveEnd(endMicros, end);
  }

  @Override
  int held() {
    return delayed.size() + lows.size() + highs.size();
  }

  @Override
  protected void unshare() {
    delayed = delayed.clone();
    lows = lows.clone();
    highs = highs.clone();
  }
}
