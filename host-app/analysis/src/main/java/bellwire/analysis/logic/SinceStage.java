package bellwire.analysis.logic;

/** {@code left since right} without bounds: right now, or left now and since a moment ago. */
final class SinceStage extends PairStage {

  private double low = Double.NEGATIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;

  SinceStage(long beginMicros) {
    super(beginMicros);
  }

  @Override
  protected void takePair(long to, double aLow, double aHigh, double bLow, double bHigh) {
    // The step of one microsecond; a second one with the same operands changes nothing.
    low = Math.max(bLow, Math.min(aLow, low));
    high = Math.max(bHigh, Math.min(aHigh, high));
    give(to, low, high);
  }

  @Override
  protected void endPair(long endMicros, TraceEnd end) {
    giveEnd(endMicros, end);
  }
}
