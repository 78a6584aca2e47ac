package bellwire.analysis.calls;

import java.util.Comparator;
import java.util.PriorityQueue;
import java.util.function.Consumer;

/** Hands on changes of several leads in order of their earliest moment, each lead's as added. */
final class ChangeOrder {
  private record Decided(LevelChange change, long number) {}

  private final Consumer<LevelChange> sink;
  private final PriorityQueue<Decided> decided =
      new PriorityQueue<>(
          Comparator.<Decided>comparingLong(d -> d.change().earliestMicros())
              .thenComparingLong(Decided::number));
  private long added;

  ChangeOrder(Consumer<LevelChange> sink) {
    this.sink = sink;
  }

  void add(LevelChange change) {
    decided.add(new Decided(change, added++));
  }

  boolean isEmpty() {
    return decided.isEmpty();
  }

  /** Tells those that nothing still to be decided can come before. */
  void tellBefore(long micros) {
    for (Decided next = decided.peek();
        next != null && next.change().earliestMicros() < micros;
        next = decided.peek()) {
      decided.remove();
      sink.accept(next.change());
    }
  }
}
