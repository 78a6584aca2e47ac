package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A stretch of time in which nobody touches the copper and no source comes or goes.
 *
 * @param farEnd null before the first entry: the far end hangs open
 * @param farSeating how many times something has been put on the far end, this one included
 * @param nearSeating how many times the near clamps have been set, the first included
 */
record Epoch(
    int index, long fromNanos, Bench.@Nullable FarEnd farEnd, int farSeating, int nearSeating) {

  static List<Epoch> of(Bench bench) {
    TreeSet<Long> times = new TreeSet<>();
    times.add(0L);
    bench.farEnd().forEach(f -> times.add(f.fromNanos()));
    times.addAll(bench.nearSeatingNanos());
    for (Bench.Foreign f : bench.surroundings().foreign()) {
      times.add(f.fromNanos());
      times.add(f.untilNanos());
    }
    for (Bench.Induced i : bench.surroundings().induced()) {
      times.add(i.fromNanos());
      times.add(i.untilNanos());
    }
    for (Bench.Attached a : bench.attached()) {
      times.add(a.fromNanos());
      times.add(a.untilNanos());
    }
    times.remove(Long.MAX_VALUE);
    List<Epoch> epochs = new ArrayList<>();
    for (long time : times) {
      Bench.FarEnd farEnd = null;
      int farSeating = 0;
      for (Bench.FarEnd f : bench.farEnd()) {
        if (f.fromNanos() <= time) {
          farEnd = f;
          farSeating += touched(f) ? 1 : 0;
        }
      }
      int nearSeating = 1 + (int) bench.nearSeatingNanos().stream().filter(n -> n <= time).count();
      epochs.add(new Epoch(epochs.size(), time, farEnd, farSeating, nearSeating));
    }
    return epochs;
  }

  private static boolean touched(Bench.FarEnd f) {
    return f.plug() != Bench.PlugKind.OPEN || !f.ties().isEmpty();
  }

  boolean on(Bench.Foreign f) {
    return f.fromNanos() <= fromNanos && fromNanos < f.untilNanos();
  }

  boolean on(Bench.Attached a) {
    return a.fromNanos() <= fromNanos && fromNanos < a.untilNanos();
  }

  boolean on(Bench.Induced i) {
    return i.fromNanos() <= fromNanos && fromNanos < i.untilNanos();
  }
}
