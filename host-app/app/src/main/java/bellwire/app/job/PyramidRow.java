package bellwire.app.job;

import bellwire.app.job.Stream.Kind;
import java.util.List;

/**
 * A stream's buckets of one level: exact least and greatest of all samples in each. Of words the
 * bits set in every one, in any, and the latches set in any. Merging the same samples twice changes
 * nothing.
 */
final class PyramidRow {
  /** Begins a row of codes; one of words, or of version 1, begins with 0 or 1. */
  private static final int CODES_FORM = 2;

  private final Kind kind;
  private final boolean[] seen;
  private final int[] low;
  private final int[] high;
  private final int[] latches;

  PyramidRow(Stream stream) {
    kind = stream.kind();
    seen = new boolean[stream.buckets()];
    low = new int[seen.length];
    high = new int[seen.length];
    latches = new int[seen.length];
  }

  boolean seen(int bucket) {
    return seen[bucket];
  }

  int low(int bucket) {
    return low[bucket];
  }

  int high(int bucket) {
    return high[bucket];
  }

  int latches(int bucket) {
    return latches[bucket];
  }

  void merge(int bucket, int lower, int higher, int latched) {
    if (!seen[bucket]) {
      seen[bucket] = true;
      low[bucket] = lower;
      high[bucket] = higher;
    } else if (kind == Kind.WORDS) {
      low[bucket] &= lower;
      high[bucket] |= higher;
    } else {
      low[bucket] = Math.min(low[bucket], lower);
      high[bucket] = Math.max(high[bucket], higher);
    }
    latches[bucket] |= latched;
  }

  /** From a time on, a bucket after the other. */
  void fill(Columns columns, long beginMicros, long bucketMicros) {
    columns.merge(beginMicros, bucketMicros, seen, low, high, latches);
  }

  ByteSink encoded() {
    ByteSink sink = new ByteSink();
    if (kind == Kind.CODES) {
      sink.octet(CODES_FORM);
    }
    for (boolean one : seen) {
      sink.octet(one ? 1 : 0);
    }
    if (kind == Kind.CODES) {
      Planes.write(sink, foldedCodes());
    } else {
      column(sink, low);
      column(sink, high);
      column(sink, latches);
    }
    return sink;
  }

  /** Of all buckets with samples the least, then the greatest. */
  private long[] foldedCodes() {
    long[] folded = new long[2 * seenCount()];
    int next = 0;
    for (int[] values : List.of(low, high)) {
      Course course = new Course();
      for (int i = 0; i < values.length; i++) {
        if (seen[i]) {
          folded[next++] = course.folded(values[i]) & 0xFFFFFFFFL;
        }
      }
    }
    return folded;
  }

  private int seenCount() {
    int count = 0;
    for (boolean one : seen) {
      count += one ? 1 : 0;
    }
    return count;
  }

  private void column(ByteSink sink, int[] values) {
    long before = 0;
    for (int i = 0; i < values.length; i++) {
      if (seen[i]) {
        sink.signed(values[i] - before);
        before = values[i];
      }
    }
  }

  static PyramidRow decoded(Stream stream, byte[] bytes) throws Damage {
    PyramidRow row = new PyramidRow(stream);
    ByteSource source = new ByteSource(bytes);
    boolean codes = bytes.length > 0 && bytes[0] == CODES_FORM;
    int begin = source.pass(row.seen.length + (codes ? 1 : 0)) + (codes ? 1 : 0);
    for (int i = 0; i < row.seen.length; i++) {
      row.seen[i] = bytes[begin + i] != 0;
    }
    if (codes) {
      row.fillCodes(source);
    } else {
      row.fill(source, row.low);
      row.fill(source, row.high);
      row.fill(source, row.latches);
    }
    return row;
  }

  private void fillCodes(ByteSource source) throws Damage {
    int count = seenCount();
    long[] folded = Planes.read(source, 2 * count);
    int[] lows = Course.values(folded, 0, count);
    int[] highs = Course.values(folded, count, count);
    int next = 0;
    for (int i = 0; i < seen.length; i++) {
      if (seen[i]) {
        low[i] = lows[next];
        high[i] = highs[next++];
      }
    }
  }

  private void fill(ByteSource source, int[] values) throws Damage {
    long before = 0;
    for (int i = 0; i < values.length; i++) {
      if (seen[i]) {
        before += source.signed();
        values[i] = (int) before;
      }
    }
  }
}
