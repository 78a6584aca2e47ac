package bellwire.app.job;

import bellwire.app.job.Stream.Kind;

/**
 * {@link Stream#BUCKETS} buckets of one level: exact least and greatest of all samples in each. Of
 * words the bits set in every one, in any, and the latches set in any. Merging the same samples
 * twice changes nothing.
 */
final class PyramidRow {
  private final Kind kind;
  private final boolean[] seen = new boolean[Stream.BUCKETS];
  private final int[] low = new int[Stream.BUCKETS];
  private final int[] high = new int[Stream.BUCKETS];
  private final int[] latches = new int[Stream.BUCKETS];

  PyramidRow(Kind kind) {
    this.kind = kind;
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

  byte[] encoded() {
    ByteSink sink = new ByteSink();
    for (boolean one : seen) {
      sink.octet(one ? 1 : 0);
    }
    column(sink, low);
    column(sink, high);
    column(sink, latches);
    return sink.taken();
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

  static PyramidRow decoded(Kind kind, byte[] bytes) throws Damage {
    PyramidRow row = new PyramidRow(kind);
    ByteSource source = new ByteSource(bytes);
    for (int i = 0; i < Stream.BUCKETS; i++) {
      row.seen[i] = source.octet() != 0;
    }
    row.fill(source, row.low);
    row.fill(source, row.high);
    row.fill(source, row.latches);
    return row;
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
