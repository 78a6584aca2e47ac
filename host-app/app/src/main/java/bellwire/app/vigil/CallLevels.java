package bellwire.app.vigil;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.Watched;
import bellwire.app.vigil.VigilCourse.Columns;
import bellwire.app.vigil.VigilPicture.State;
import bellwire.app.vigil.VigilPicture.Stretch;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleConsumer;

/** The levels of a vigil of calls, worked out from its words as they come, and kept. */
final class CallLevels {
  private static final int LEADS = 16;
  private static final int MOST_CHANGES = 400_000;
  private static final int READ_MICROS = 500;
  private static final long STRETCH_MICROS = 300_000_000;

  private final LevelTracker tracker;
  private final List<List<LevelChange>> changes = new ArrayList<>();
  private int count;
  private long takenMicros = -1;

  CallLevels(Watched watched) {
    for (int i = 0; i < LEADS; i++) {
      changes.add(new ArrayList<>());
    }
    tracker =
        new LevelTracker(
            watched.wetting() ? LevelTracker.Feed.DRY : LevelTracker.Feed.AC,
            watched.ports(),
            this::changed);
  }

  private void changed(LevelChange change) {
    if (count < MOST_CHANGES) {
      changes.get(change.lead()).add(change);
      count++;
    }
  }

  boolean take(VigilReader reader, long lastMicros, DoubleConsumer progress, BooleanSupplier stop)
      throws JobFileException {
    Stream stream = reader.streams().get(0);
    while (takenMicros < lastMicros && !stop.getAsBoolean()) {
      long until = Math.min(lastMicros + 1, takenMicros + 1 + STRETCH_MICROS);
      reader.samples(
          stream,
          takenMicros + 1,
          until,
          (first, ticks, value, latches) -> {
            for (int i = 0; i < ticks; i++) {
              tracker.sample(first + i * stream.periodMicros(), READ_MICROS, value);
            }
          });
      takenMicros = until - 1;
      progress.accept((double) takenMicros / Math.max(1, lastMicros));
    }
    return takenMicros >= lastMicros;
  }

  List<Stretch> stretches(int lead, Columns of) {
    List<Stretch> all = new ArrayList<>();
    List<LevelChange> own = changes.get(lead);
    for (int i = at(own, of.fromMicros()); i < own.size(); i++) {
      long from = Math.max(of.fromMicros(), own.get(i).earliestMicros());
      long end = i + 1 < own.size() ? own.get(i + 1).earliestMicros() : takenMicros;
      long to = Math.min(of.toMicros(), end);
      if (from >= of.toMicros()) {
        break;
      }
      Level level = own.get(i).level();
      if (level != Level.UNKNOWN && to > from) {
        Stretches.join(all, new Stretch(from, to, state(level)), of);
      }
    }
    return all;
  }

  /** The last change before a time, or the first of all. */
  private static int at(List<LevelChange> own, long micros) {
    int low = 0;
    int high = own.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (own.get(middle).earliestMicros() <= micros) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  private static State state(Level level) {
    return switch (level) {
      case ON -> State.THROUGHOUT;
      case WEAK -> State.WEAK;
      default -> State.REST;
    };
  }
}
