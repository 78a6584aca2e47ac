package bellwire.app.job;

import bellwire.app.job.Stream.Kind;

/** The samples of one span of a stream, in the order of their times. */
abstract sealed class Span permits WordSpan, CodeSpan {
  /** Receives samples: of codes one by one, of words a run of like ones. */
  interface Sink {
    /**
     * Takes samples alike.
     *
     * @param firstMicros time of the first
     * @param count samples, a period apart
     * @param value bits or the converter's code
     * @param code of the first, of the group patterns; going on by one each tick, round and round
     */
    void run(long firstMicros, int count, int value, int latches, int code);
  }

  /** Farther from zero than any vigil; nothing added to it overflows. */
  static final long MOST_MICROS = 1L << 60;

  static Span of(Stream stream) {
    return stream.kind() == Kind.WORDS ? new WordSpan(stream) : new CodeSpan(stream);
  }

  static Span decoded(Stream stream, byte[] bytes) throws Damage {
    Span span = of(stream);
    ByteSource source = new ByteSource(bytes);
    span.decode(source);
    if (!source.atEnd()) {
      throw new Damage("more behind its end");
    }
    return span;
  }

  /** Fails for a time that no clock would tell, or that is before another. */
  static void checkTime(long micros, long beforeMicros) throws Damage {
    if (micros < beforeMicros || micros > MOST_MICROS) {
      throw new Damage("times out of order: micros=" + micros);
    }
  }

  abstract boolean isEmpty();

  abstract long firstMicros();

  /** Time of the last sample. */
  abstract long lastMicros();

  abstract void add(long firstMicros, int count, int value, int latches, int code);

  abstract void forEach(Sink sink);

  abstract void fill(Columns columns);

  abstract ByteSink encoded();

  abstract void decode(ByteSource source) throws Damage;
}
