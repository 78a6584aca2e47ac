package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import java.util.ArrayList;
import java.util.List;

/**
 * A bench's epochs as they come: the file's own times, and within them the faults that come and go
 * and the joints that wander. Only the present one is kept.
 */
final class Epochs {
  private static final long NEVER = Long.MAX_VALUE;

  private final List<Epoch> planned;
  private final Intermittents faults;
  private final List<Wandering> joints = new ArrayList<>();
  private int number;
  private int wandered;
  private Epoch current;
  private long nextNanos;

  /**
   * @param leastNanos intermittent openings and touches shorter than this are left out
   */
  Epochs(Bench bench, long seed, long leastNanos) {
    planned = Epoch.planned(bench);
    faults = new Intermittents(bench, seed, leastNanos);
    for (int w = 0; w < bench.wanders().size(); w++) {
      joints.add(new Wandering(bench.wanders().get(w), seed, w));
    }
    current = planned.get(0);
    find();
  }

  /** Those of the bench file's own times. */
  List<Epoch> planned() {
    return planned;
  }

  Epoch current() {
    return current;
  }

  /** When the present one ends, {@link Long#MAX_VALUE} for never. */
  long nextNanos() {
    return nextNanos;
  }

  /** Goes on to the next one. */
  void turn() {
    long now = nextNanos;
    if (number + 1 < planned.size() && planned.get(number + 1).fromNanos() <= now) {
      number++;
    }
    faults.advanceTo(now);
    for (Wandering joint : joints) {
      if (joint.nextNanos() <= now) {
        joint.step();
        wandered++;
      }
    }
    Epoch at = planned.get(number);
    current =
        new Epoch(
            new Epoch.Key(number, faults.present(), wandered),
            Math.max(now, at.fromNanos()),
            at.farEnd(),
            at.farSeating(),
            at.nearSeating(),
            joints.stream().mapToDouble(Wandering::ohms).toArray());
    find();
  }

  private void find() {
    nextNanos = number + 1 < planned.size() ? planned.get(number + 1).fromNanos() : NEVER;
    nextNanos = Math.min(nextNanos, faults.nextNanos());
    for (Wandering joint : joints) {
      nextNanos = Math.min(nextNanos, joint.nextNanos());
    }
  }
}
