package bellwire.analysis.logic;

import org.jspecify.annotations.Nullable;

/** Keeps the formula's robustness at the trace's beginning, and passes the rest on. */
final class OutputStage extends Stage {

  private @Nullable Robustness first;
  private @Nullable RobustnessSink sink;

  OutputStage(long beginMicros, @Nullable RobustnessSink sink) {
    super(beginMicros);
    this.sink = sink;
  }

  @Nullable Robustness first() {
    return first;
  }

  @Override
  void take(int port, long toMicros, double low, double high) {
    if (first == null) {
      first = new Robustness(low, high);
    }
    if (sink != null) {
      sink.take(givenMicros, toMicros, new Robustness(low, high));
    }
    givenMicros = toMicros;
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {}

  @Override
  int held() {
    return 1;
  }

  @Override
  protected void unshare() {
    sink = null;
  }
}
