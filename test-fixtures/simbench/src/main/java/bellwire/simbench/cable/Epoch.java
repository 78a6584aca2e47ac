package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import bellwire.simbench.file.Wander;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A stretch of time in which nobody touches the copper, no source comes or goes, and no fault.
 *
 * @param key tells it from all others that are not electrically the same
 * @param farEnd null before the first entry: the far end hangs open
 * @param farSeating how many times something has been put on the far end, this one included
 * @param nearSeating how many times the near clamps have been set, the first included
 * @param wanderOhms of each wandering joint; kept
 */
record Epoch(
    Key key,
    long fromNanos,
    Bench.@Nullable FarEnd farEnd,
    int farSeating,
    int nearSeating,
    double[] wanderOhms) {

  /**
   * What makes an epoch.
   *
   * @param planned number of the stretch between the bench file's own times
   * @param present intermittent faults that are there, bit i for entry i
   * @param wandered how many steps the wandering joints have taken, all together
   */
  record Key(int planned, long present, int wandered) {}

  /** The stretches between the times that the bench file names, without what comes and goes. */
  static List<Epoch> planned(Bench bench) {
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
      Key key = new Key(epochs.size(), 0, 0);
      double[] ohms = bench.wanders().stream().mapToDouble(Wander::ohms).toArray();
      epochs.add(new Epoch(key, time, farEnd, farSeating, nearSeating, ohms));
    }
    return epochs;
  }

  private static boolean touched(Bench.FarEnd f) {
    return f.plug() != Bench.PlugKind.OPEN || !f.ties().isEmpty();
  }

  /** Whether an intermittent opening or touch is there. */
  boolean present(int entry) {
    return (key.present() >>> entry & 1) != 0;
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
