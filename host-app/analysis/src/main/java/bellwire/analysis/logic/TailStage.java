package bellwire.analysis.logic;

/**
 * Always or eventually without an upper bound, at every moment: the least value from there on. A
 * moment is final once it can't sink any lower; Boolean signals need two pieces a bound.
 */
final class TailStage extends Stage {

  private static final double NEGATIVE = Double.NEGATIVE_INFINITY;
  private static final double POSITIVE = Double.POSITIVE_INFINITY;

  private final boolean every;
  private final long fromMicros;

  /** The operand has been seen up to here, as seen {@code fromMicros} before. */
  private long seenMicros;

  // Beginnings of stretches with the least value from there on, ascending.
  private Ranks lows = new Ranks();
  private Ranks highs = new Ranks();

  TailStage(long beginMicros, boolean every, long fromMicros) {
    super(beginMicros);
    this.every = every;
    this.fromMicros = fromMicros;
    this.seenMicros = beginMicros - fromMicros;
  }

  @Override
  void take(int port, long toMicros, double low, double high) {
    long begin = Math.max(seenMicros, givenMicros);
    seenMicros = toMicros - fromMicros;
    if (seenMicros > begin) {
      sink(lows, begin, every ? low : -high);
      sink(highs, begin, every ? high : -low);
      giveFinal();
    }
  }

  @Override
  long steadyFromMicros() {
    return lows.isEmpty()
        ? Long.MAX_VALUE
        : Math.max(givenMicros, Math.max(lows.lastAt(), highs.lastAt()));
  }

  @Override
  long steadyToMicros() {
    return seenMicros;
  }

  private static void sink(Ranks ranks, long beginMicros, double value) {
    long begin = beginMicros;
    while (!ranks.isEmpty() && ranks.last() >= value) {
      begin = ranks.lastAt();
      ranks.removeLast();
    }
    ranks.addLast(begin, value);
  }

  private void giveFinal() {
    if (highs.first() == NEGATIVE) {
      // Then the lower bound there is no higher.
      giveUntil(highs.secondAt(seenMicros), NEGATIVE, NEGATIVE);
    }
  }

  private void giveUntil(long toMicros, double low, double high) {
    if (every) {
      give(toMicros, low, high);
    } else {
      give(toMicros, -high, -low);
    }
    forget(lows);
    forget(highs);
  }

  private void forget(Ranks ranks) {
    while (!ranks.isEmpty() && ranks.secondAt(seenMicros) <= givenMicros) {
      ranks.removeFirst();
    }
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    while (!lows.isEmpty()) {
      long to = Math.min(lows.secondAt(seenMicros), highs.secondAt(seenMicros));
      giveUntil(to, end == TraceEnd.OPEN ? NEGATIVE : lows.first(), highs.first());
    }
    giveUntil(endMicros, end == TraceEnd.OPEN ? NEGATIVE : POSITIVE, POSITIVE);
    giveEnd(endMicros, end);
  }

  @Override
  int held() {
    return lows.size() + highs.size();
  }

  @Override
  protected void unshare() {
    lows = lows.clone();
    highs = highs.clone();
  }
}
