package bellwire.analysis.vigil;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * The stretches of time in which something could be seen to happen. What a rate is divided by; and
 * with what lies between them taken out, events at random are at random still. Theory (113).
 */
public final class Exposure {
  /** A watch is unbroken for a period where no more of it is missing. */
  private static final double MOST_MISSING = 0.01;

  private final long[] from;
  private final long[] to;

  /** Seen before each stretch. */
  private final long[] before;

  private final long total;

  private Exposure(List<long[]> stretches) {
    int n = stretches.size();
    from = new long[n];
    to = new long[n];
    before = new long[n];
    long sum = 0;
    for (int i = 0; i < n; i++) {
      from[i] = stretches.get(i)[0];
      to[i] = stretches.get(i)[1];
      before[i] = sum;
      sum += to[i] - from[i];
    }
    total = sum;
  }

  /** All of a watch but the times in which nothing was known, in any order, also overlapping. */
  public static Exposure without(long fromMicros, long toMicros, List<Unwatched> missing) {
    List<Unwatched> ordered = new ArrayList<>(missing);
    ordered.sort(Comparator.comparingLong(Unwatched::fromMicros));
    List<long[]> seen = new ArrayList<>();
    long at = fromMicros;
    for (Unwatched each : ordered) {
      long end = Math.min(each.fromMicros(), toMicros);
      if (end > at) {
        seen.add(new long[] {at, end});
      }
      at = Math.max(at, each.toMicros());
    }
    if (toMicros > at) {
      seen.add(new long[] {at, toMicros});
    }
    return new Exposure(seen);
  }

  /**
   * @param stretches from and to of each, ascending
   */
  static Exposure of(List<long[]> stretches) {
    return new Exposure(stretches);
  }

  public long micros() {
    return total;
  }

  public double seconds() {
    return total / 1e6;
  }

  /** What of it lies before a time. */
  public long upTo(long micros) {
    int at = Arrays.binarySearch(from, micros);
    int i = at >= 0 ? at : -at - 2;
    return i < 0 ? 0 : before[i] + Math.min(micros, to[i]) - from[i];
  }

  /** What of it lies in the windows that begin at these times, where they overlap once. */
  public long within(long[] begins, long lengthMicros) {
    long[] ordered = begins.clone();
    Arrays.sort(ordered);
    long sum = 0;
    long at = Long.MIN_VALUE;
    for (long begin : ordered) {
      long low = Math.max(at, begin);
      at = Math.max(at, begin + lengthMicros);
      sum += upTo(at) - upTo(Math.min(low, at));
    }
    return sum;
  }

  /** The longest run of stretches, begin and end, with hardly anything missing in it. */
  long[] unbroken() {
    long[] best = {0, 0};
    int low = 0;
    for (int high = 0; high < from.length; high++) {
      while (missing(low, high) > MOST_MISSING * (to[high] - from[low])) {
        low++;
      }
      if (to[high] - from[low] > best[1] - best[0]) {
        best = new long[] {from[low], to[high]};
      }
    }
    return best;
  }

  private long missing(int low, int high) {
    return to[high] - from[low] - (before[high] + to[high] - from[high] - before[low]);
  }
}
