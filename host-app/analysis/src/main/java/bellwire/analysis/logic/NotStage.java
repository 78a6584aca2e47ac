package bellwire.analysis.logic;

/** Swaps and negates the bounds. */
final class NotStage extends Stage {

  NotStage(long beginMicros) {
    super(beginMicros);
  }

  @Override
  void take(int port, long toMicros, double low, double high) {
    give(toMicros, -high, -low);
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    giveEnd(endMicros, end);
  }

  @Override
  int held() {
    return 0;
  }

  @Override
  protected void unshare() {}
}
