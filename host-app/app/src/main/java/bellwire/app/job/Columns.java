package bellwire.app.job;

import bellwire.app.job.Overview.Column;
import bellwire.app.job.Stream.Kind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Columns being filled. */
final class Columns {
  private final Kind kind;
  private final long[] edge;
  private final boolean[] sampled;
  private final int[] low;
  private final int[] high;
  private final int[] latches;
  private final double[] missingMicros;
  private int last;

  /**
   * @param edge rising, one more than columns
   */
  Columns(Kind kind, long[] edge) {
    this.kind = kind;
    this.edge = edge;
    int count = edge.length - 1;
    sampled = new boolean[count];
    low = new int[count];
    high = new int[count];
    latches = new int[count];
    missingMicros = new double[count];
  }

  long fromMicros() {
    return edge[0];
  }

  long toMicros() {
    return edge[edge.length - 1];
  }

  /** What was seen from a first to a last time, both part of it. */
  void merge(long firstMicros, long lastMicros, int lower, int higher, int latched) {
    if (lastMicros < fromMicros() || firstMicros >= toMicros()) {
      return;
    }
    int begin = columnOf(Math.max(firstMicros, fromMicros()));
    int end = lastMicros < edge[begin + 1] ? begin : columnOf(Math.min(lastMicros, toMicros() - 1));
    for (int c = begin; c <= end; c++) {
      put(c, lower, higher, latched);
    }
  }

  /** Codes at their times, which rise. */
  void merge(long[] micros, int[] code, int count) {
    int i = 0;
    while (i < count && micros[i] < fromMicros()) {
      i++;
    }
    while (i < count && micros[i] < toMicros()) {
      int c = columnOf(micros[i]);
      long end = edge[c + 1];
      int least = sampled[c] ? low[c] : code[i];
      int greatest = sampled[c] ? high[c] : code[i];
      for (; i < count && micros[i] < end; i++) {
        least = Math.min(least, code[i]);
        greatest = Math.max(greatest, code[i]);
      }
      sampled[c] = true;
      low[c] = least;
      high[c] = greatest;
    }
  }

  /** Buckets in a row, none of which is longer than a column or lies in two. */
  void merge(
      long beginMicros,
      long bucketMicros,
      boolean[] seen,
      int[] lower,
      int[] higher,
      int[] latched) {
    long micros = beginMicros;
    int i = (int) Math.max(0, Math.min(seen.length, (fromMicros() - micros) / bucketMicros));
    micros += i * bucketMicros;
    while (i < seen.length && micros < toMicros()) {
      int c = columnOf(micros);
      long end = edge[c + 1];
      for (; i < seen.length && micros < end; i++, micros += bucketMicros) {
        if (seen[i]) {
          put(c, lower[i], higher[i], latched[i]);
        }
      }
    }
  }

  private void put(int c, int lower, int higher, int latched) {
    boolean first = !sampled[c];
    sampled[c] = true;
    latches[c] |= latched;
    if (kind == Kind.WORDS) {
      low[c] = first ? lower : low[c] & lower;
      high[c] |= higher;
    } else {
      low[c] = first ? lower : Math.min(low[c], lower);
      high[c] = first ? higher : Math.max(high[c], higher);
    }
  }

  void gap(Gap gap) {
    long from = Math.max(gap.fromMicros(), fromMicros());
    long to = Math.min(gap.toMicros(), toMicros());
    if (from >= to) {
      return;
    }
    for (int c = columnOf(from); c < sampled.length && edge[c] < to; c++) {
      missingMicros[c] += Math.min(to, edge[c + 1]) - Math.max(from, edge[c]);
    }
  }

  /** Mostly the one that was asked for last, or the next. */
  private int columnOf(long micros) {
    if (micros >= edge[last] && micros < edge[last + 1]) {
      return last;
    }
    last = found(micros);
    return last;
  }

  private int found(long micros) {
    int next = last + 1;
    if (next < sampled.length && micros >= edge[next] && micros < edge[next + 1]) {
      return next;
    }
    int found = Arrays.binarySearch(edge, micros);
    return found >= 0 ? found : -found - 2;
  }

  List<Column> done() {
    List<Column> columns = new ArrayList<>(sampled.length);
    for (int c = 0; c < sampled.length; c++) {
      double gapShare = Math.min(1, missingMicros[c] / (edge[c + 1] - edge[c]));
      columns.add(
          new Column(edge[c], edge[c + 1], sampled[c], low[c], high[c], latches[c], gapShare));
    }
    return columns;
  }
}
