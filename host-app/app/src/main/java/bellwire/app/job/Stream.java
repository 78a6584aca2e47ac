package bellwire.app.job;

/**
 * One row of samples on one time axis: all ports' bits together, or one conductor's converter codes
 * in one configuration. Time is cut into spans of buckets, aligned to zero; a span is a block of
 * samples and a row of the pyramid's lowest level.
 *
 * @param id key in table stream
 * @param name what is sampled, such as 'ports' or 'P3'
 * @param periodMicros between two samples, nominally; a distance of more than one and a half is a
 *     gap
 * @param codes words: group patterns that the agent drives in turn, one each tick; 1 where it does
 *     not
 * @param bucketMicros length of the pyramid's shortest buckets
 * @param buckets in a span, and in a row of the pyramid on any level
 */
public record Stream(
    long id, Kind kind, String name, long periodMicros, int codes, long bucketMicros, int buckets) {
  /** What its samples are. */
  public enum Kind {
    /** A bit a port and a latch bit a port, kept as runs. */
    WORDS,
    /** The converter's 24 bit, signed. */
    CODES
  }

  private static final int WORDS_BUCKETS = 256;

  /** A block too short leaves a large part of its last page empty. */
  private static final int CODES_BUCKETS = 512;

  /** Levels of the pyramid; a bucket of one is 16 of the one below. */
  static final int LEVELS = 4;

  private static final int FAN_BITS = 4;

  /** 250 µs, the converter's fastest, to a minute. */
  private static final long LEAST_PERIOD_MICROS = 250;

  private static final long MOST_PERIOD_MICROS = 60_000_000;

  /**
   * A converter's bucket holds so many samples and up to twice that, within the limits below: few
   * enough that a column just too narrow for the pyramid is soon drawn from samples.
   */
  private static final int BUCKET_SAMPLES = 16;

  private static final long LEAST_BUCKET_MICROS = 1 << 14;
  private static final long MOST_BUCKET_MICROS = 1 << 24;

  /**
   * For words, which take no room while nothing changes: 1.05 s, a span of four and a half minutes.
   */
  private static final long WORDS_BUCKET_MICROS = 1 << 20;

  private static final int MOST_CODES = 64;

  public Stream {
    if (Long.bitCount(bucketMicros) != 1
        || bucketMicros < LEAST_BUCKET_MICROS
        || bucketMicros > MOST_BUCKET_MICROS) {
      throw new IllegalArgumentException("no bucket length: bucketMicros=" + bucketMicros);
    }
    if (buckets != WORDS_BUCKETS && buckets != CODES_BUCKETS) {
      throw new IllegalArgumentException("no number of buckets: buckets=" + buckets);
    }
    if (codes < 1 || codes > MOST_CODES || (kind == Kind.CODES && codes != 1)) {
      throw new IllegalArgumentException("codes out of range: codes=" + codes);
    }
    if (periodMicros < LEAST_PERIOD_MICROS || periodMicros > MOST_PERIOD_MICROS) {
      throw new IllegalArgumentException("period out of range: periodMicros=" + periodMicros);
    }
  }

  /** A new one, not yet in a table. */
  static Stream of(Kind kind, String name, long periodMicros, int codes) {
    int buckets = kind == Kind.WORDS ? WORDS_BUCKETS : CODES_BUCKETS;
    return new Stream(
        0, kind, name, periodMicros, codes, bucketMicros(kind, periodMicros), buckets);
  }

  Stream withId(long key) {
    return new Stream(key, kind, name, periodMicros, codes, bucketMicros, buckets);
  }

  /** Length of a bucket on a level of the pyramid, from 1. */
  long bucketMicros(int level) {
    return bucketMicros << (FAN_BITS * (level - 1));
  }

  private static long bucketMicros(Kind kind, long periodMicros) {
    if (kind == Kind.WORDS) {
      return WORDS_BUCKET_MICROS;
    }
    long wanted = Long.highestOneBit(BUCKET_SAMPLES * periodMicros - 1) << 1;
    return Math.max(LEAST_BUCKET_MICROS, Math.min(MOST_BUCKET_MICROS, wanted));
  }

  long rowMicros(int level) {
    return bucketMicros(level) * buckets;
  }

  long spanMicros() {
    return rowMicros(1);
  }

  long spanOf(long micros) {
    return Math.floorDiv(micros, spanMicros());
  }

  /** Whether samples at these two times in a row leave something out. */
  boolean apart(long earlierMicros, long laterMicros) {
    return laterMicros - earlierMicros > periodMicros + periodMicros / 2;
  }
}
