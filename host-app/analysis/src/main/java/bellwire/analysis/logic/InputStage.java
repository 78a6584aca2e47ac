package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Threshold;
import org.jspecify.annotations.Nullable;

/** An atom, a threshold or a constant: what the monitor is told of a signal, as margin. */
final class InputStage extends Stage {

  private final @Nullable Threshold threshold;
  private double low = Double.NEGATIVE_INFINITY;
  private double high = Double.POSITIVE_INFINITY;

  InputStage(long beginMicros, @Nullable Threshold threshold) {
    super(beginMicros);
    this.threshold = threshold;
  }

  /** The signal's bounds from where it has been given to. */
  void set(double signalLow, double signalHigh) {
    if (threshold == null) {
      low = signalLow;
      high = signalHigh;
    } else if (threshold.relation().upward()) {
      low = signalLow - threshold.limit();
      high = signalHigh - threshold.limit();
    } else {
      low = threshold.limit() - signalHigh;
      high = threshold.limit() - signalLow;
    }
  }

  void advance(long micros) {
    give(micros, low, high);
  }

  void finish(long endMicros, TraceEnd end) {
    giveEnd(endMicros, end);
  }

  @Override
  void take(int port, long toMicros, double takenLow, double takenHigh) {
    throw new IllegalStateException("port=" + port);
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    throw new IllegalStateException("port=" + port);
  }

  @Override
  int held() {
    return 0;
  }

  @Override
  protected void unshare() {}
}
