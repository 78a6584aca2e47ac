package bellwire.analysis.calls;

import java.util.Comparator;
import java.util.PriorityQueue;
import java.util.function.Consumer;

/** Hands on changes of several leads in order of their earliest moment. */
final class ChangeOrder {
  private final Consumer<LevelChange> sink;
  private final PriorityQueue<LevelChange> decided =
      new PriorityQueue<>(
          Comparator.comparingLong(LevelChange::earliestMicros)
              .thenComparingInt(LevelChange::lead)
              .thenComparingLong(LevelChange::latestMicros));

  ChangeOrder(Consumer<LevelChange> sink) {
    this.sink = sink;
  }

  void add(LevelChange change) {
    decided.add(change);
  }

  boolean isEmpty() {
    return decided.isEmpty();
  }

  /** Tells those that nothing still to be decided can come before. */
  void tellBefore(long micros) {
    for (LevelChange next = decided.peek();
        next != null && next.earliestMicros() < micros;
        next = decided.peek()) {
      decided.remove();
      sink.accept(next);
    }
  }
}
