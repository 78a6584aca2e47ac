package bellwire.analysis.vigil;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import java.util.ArrayList;
import java.util.List;

/**
 * What a control's terminal does that it should not: calls that are gone for a moment, and calls
 * for a moment. Theory (118).
 */
final class CallEvents {
  /**
   * No control lets go of a call, or makes one, for less. Common practice, no source: they hold a
   * call for a minute or more.
   */
  static final long BRIEF_MICROS = 10_000_000;

  /** A level between two edges, of each the moments between which it lies. */
  private record Held(boolean on, boolean known, long[] begin, long[] end) {
    long mostMicros() {
      return end[1] - begin[0];
    }

    boolean brief() {
      return mostMicros() <= BRIEF_MICROS;
    }
  }

  private final List<VigilEvent> dropOuts = new ArrayList<>();
  private final List<VigilEvent> strays = new ArrayList<>();
  private final List<long[]> on = new ArrayList<>();
  private final List<long[]> off = new ArrayList<>();

  /**
   * @param changes of all leads, in order of time
   */
  CallEvents(int lead, List<LevelChange> changes, long toMicros) {
    List<Held> held = held(lead, changes, toMicros);
    for (int i = 0; i < held.size(); i++) {
      Held each = held.get(i);
      if (!each.known) {
        continue;
      }
      boolean between = between(held, i);
      boolean dropOut = !each.on && each.brief() && between;
      boolean stray =
          each.on
              && each.brief()
              && between
              && !held.get(i - 1).brief()
              && !held.get(i + 1).brief();
      if (dropOut || stray) {
        (dropOut ? dropOuts : strays).add(event(lead, each));
      }
      boolean countsAsOn = each.on && !stray || dropOut;
      add(countsAsOn ? on : off, each.begin[1], each.end[1]);
    }
  }

  private static boolean between(List<Held> held, int i) {
    return i > 0 && i + 1 < held.size() && held.get(i - 1).known && held.get(i + 1).known;
  }

  private static VigilEvent event(int lead, Held held) {
    long last = Math.max(held.begin[1], held.end[0]);
    return new VigilEvent(
        lead, held.begin[0], held.begin[1], last, held.end[1], 1, false, false, false);
  }

  private static void add(List<long[]> stretches, long from, long to) {
    if (to <= from) {
      return;
    }
    if (!stretches.isEmpty() && stretches.get(stretches.size() - 1)[1] >= from) {
      stretches.get(stretches.size() - 1)[1] = to;
    } else {
      stretches.add(new long[] {from, to});
    }
  }

  /** Off and weak are both no call. */
  private static List<Held> held(int lead, List<LevelChange> changes, long toMicros) {
    List<Held> held = new ArrayList<>();
    Level level = Level.UNKNOWN;
    long[] begin = null;
    for (LevelChange change : changes) {
      if (change.lead() != lead) {
        continue;
      }
      boolean same =
          begin != null
              && (level == Level.ON) == (change.level() == Level.ON)
              && (level == Level.UNKNOWN) == (change.level() == Level.UNKNOWN);
      if (!same) {
        long[] edge = {change.earliestMicros(), change.latestMicros()};
        if (begin != null) {
          held.add(new Held(level == Level.ON, level != Level.UNKNOWN, begin, edge));
        }
        begin = edge;
      }
      level = change.level();
    }
    if (begin != null && begin[1] < toMicros) {
      long[] end = {toMicros, toMicros};
      held.add(new Held(level == Level.ON, level != Level.UNKNOWN, begin, end));
    }
    return held;
  }

  List<VigilEvent> dropOuts() {
    return dropOuts;
  }

  List<VigilEvent> strays() {
    return strays;
  }

  /** While a call was on, its drop-outs among it. */
  Exposure on() {
    return Exposure.of(on);
  }

  /** While no call was on, the stray ones among it. */
  Exposure off() {
    return Exposure.of(off);
  }
}
