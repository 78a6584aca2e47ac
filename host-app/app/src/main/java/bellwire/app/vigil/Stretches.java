package bellwire.app.vigil;

import bellwire.app.job.Overview.Column;
import bellwire.app.vigil.VigilCourse.Columns;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.State;
import bellwire.app.vigil.VigilPicture.Stretch;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Puts together what a chart can't show apart. */
final class Stretches {
  private Stretches() {}

  /** Of a port's bits: like columns side by side as one stretch; none where nothing was set. */
  static List<Stretch> ofColumns(List<Column> columns, int port) {
    List<Stretch> all = new ArrayList<>();
    long from = 0;
    @Nullable State now = null;
    for (Column each : columns) {
      @Nullable State state = state(each, port);
      if (state != now) {
        if (now != null) {
          all.add(new Stretch(from, each.fromMicros(), now));
        }
        from = each.fromMicros();
        now = state;
      }
    }
    if (now != null) {
      all.add(new Stretch(from, columns.get(columns.size() - 1).toMicros(), now));
    }
    return all;
  }

  private static @Nullable State state(Column column, int port) {
    if (!column.sampled()) {
      return null;
    }
    if ((column.low() >>> port & 1) != 0) {
      return State.THROUGHOUT;
    }
    boolean any = ((column.high() | column.latches()) >>> port & 1) != 0;
    return any ? State.PARTLY : null;
  }

  /** Adds a stretch; those that begin and end within one column become one. */
  static void join(List<Stretch> all, Stretch next, Columns of) {
    int last = all.size() - 1;
    if (last >= 0) {
      Stretch before = all.get(last);
      long at = of.column(before.fromMicros());
      if (of.column(next.fromMicros()) == at) {
        boolean alike = before.state() == next.state() && before.toMicros() >= next.fromMicros();
        State state = alike ? next.state() : State.PARTLY;
        if (of.column(next.toMicros()) == at || alike) {
          all.set(last, new Stretch(before.fromMicros(), next.toMicros(), state));
          return;
        }
      }
    }
    all.add(next);
  }

  /** Adds an event; one that begins in the column where the one before ended joins it. */
  static void join(List<Event> all, Event next, Columns of) {
    int last = all.size() - 1;
    if (last >= 0 && of.column(all.get(last).lastMicros()) == of.column(next.firstMicros())) {
      Event before = all.get(last);
      all.set(
          last,
          new Event(
              before.firstMicros(),
              Math.max(before.lastMicros(), next.lastMicros()),
              before.count() + next.count(),
              before.brief() && next.brief()));
    } else {
      all.add(next);
    }
  }
}
