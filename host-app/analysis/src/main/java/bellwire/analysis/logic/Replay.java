package bellwire.analysis.logic;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/** The changes of signals in order of time. */
public record Replay(List<Change> changes) {

  /** One change. */
  public record Change(String signal, long micros, Robustness value) {}

  public Replay {
    changes = List.copyOf(changes);
  }

  /** Of all the signals, from what they are at the beginning to before the end. */
  public static Replay of(Map<String, Signal> signals, long beginMicros, long endMicros) {
    List<Change> changes = new ArrayList<>();
    signals.forEach(
        (name, signal) -> {
          for (int i = 0; i < signal.pieces(); i++) {
            long from = Math.max(signal.fromMicros(i), beginMicros);
            long to = i + 1 < signal.pieces() ? signal.fromMicros(i + 1) : signal.endMicros();
            if (from < to && from < endMicros) {
              changes.add(new Change(name, from, signal.value(i)));
            }
          }
          if (signal.endMicros() < endMicros) {
            changes.add(
                new Change(name, Math.max(signal.endMicros(), beginMicros), Robustness.UNKNOWN));
          }
        });
    changes.sort(Comparator.comparingLong(Change::micros));
    return new Replay(changes);
  }

  /** Tells the monitor those that its formula reads. */
  public void into(LogicMonitor monitor) {
    for (Change change : changes) {
      int signal = monitor.number(change.signal());
      if (signal >= 0) {
        monitor.change(signal, change.micros(), change.value().low(), change.value().high());
      }
    }
  }
}
