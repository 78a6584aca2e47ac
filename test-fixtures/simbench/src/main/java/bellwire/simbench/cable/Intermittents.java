package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import bellwire.simbench.file.Intermittent;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A bench's intermittent openings and touches as they come: drawn one ahead for each entry, from
 * the seed and the entry's number alone, so that every watcher of a bench meets the same ones.
 */
public final class Intermittents {
  private static final long NEVER = Starts.NEVER;

  /** One entry: the occurrence under way, or the next one. */
  private static final class Course {
    private final int entry;
    private final Intermittent fault;
    private final long leastNanos;
    private final SplittableRandom random;
    private final Starts starts;
    private long start;
    private long end = Long.MIN_VALUE;
    private boolean on;

    Course(int entry, Intermittent fault, long leastNanos, long seed) {
      this.entry = entry;
      this.fault = fault;
      this.leastNanos = leastNanos;
      random = new SplittableRandom(seed * 0x9E3779B97F4A7C15L + entry);
      starts = new Starts(fault.when(), random.split());
      draw();
    }

    private void draw() {
      do {
        long before = end;
        do {
          start = starts.next();
        } while (start != NEVER && (start <= before || start < fault.fromNanos()));
        if (start >= fault.untilNanos()) {
          start = NEVER;
          return;
        }
        double share = random.nextDouble();
        double length =
            fault.shortestNanos()
                * Math.pow((double) fault.longestNanos() / fault.shortestNanos(), share);
        end = start + Math.round(length);
      } while (end - start < leastNanos);
    }

    long next() {
      return on ? end : start;
    }

    void turn() {
      on = !on;
      if (!on) {
        draw();
      }
    }
  }

  private final List<Course> courses = new ArrayList<>();
  private long nextNanos = NEVER;
  private long present;

  /**
   * @param seed of the bench's draws
   * @param leastNanos shorter ones are left out
   */
  public Intermittents(Bench bench, long seed, long leastNanos) {
    for (int i = 0; i < bench.intermittents().size(); i++) {
      if (bench.intermittents().get(i).longestNanos() >= leastNanos) {
        courses.add(new Course(i, bench.intermittents().get(i), leastNanos, seed));
      }
    }
    find();
  }

  /** When the next one begins or ends, {@link Long#MAX_VALUE} for never. */
  public long nextNanos() {
    return nextNanos;
  }

  /** Which are there: bit i for entry i. */
  public long present() {
    return present;
  }

  /** Lets all begin and end that are due. */
  public void advanceTo(long nanos) {
    while (nextNanos <= nanos) {
      for (Course course : courses) {
        while (course.next() <= nanos) {
          course.turn();
        }
        present = course.on ? present | 1L << course.entry : present & ~(1L << course.entry);
      }
      find();
    }
  }

  private void find() {
    nextNanos = NEVER;
    for (Course course : courses) {
      nextNanos = Math.min(nextNanos, course.next());
    }
  }

  /**
   * What is really there, for tests: all that begin in a stretch of time, by their beginning.
   *
   * @param untilNanos not included
   */
  public static List<Occurrence> between(Bench bench, long seed, long fromNanos, long untilNanos) {
    List<Occurrence> all = new ArrayList<>();
    for (Course course : new Intermittents(bench, seed, 0).courses) {
      for (; course.start < untilNanos && course.start != NEVER; course.draw()) {
        if (course.start >= fromNanos) {
          Intermittent f = course.fault;
          all.add(
              new Occurrence(
                  course.entry, f.kind(), f.portA(), f.portB(), f.at(), course.start, course.end));
        }
      }
    }
    all.sort(Comparator.comparingLong(Occurrence::startNanos));
    return all;
  }
}
