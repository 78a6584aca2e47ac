package bellwire.analysis.logic;

/**
 * How far from now an operator looks, both ends included.
 *
 * @param fromMicros nearest, zero or more
 * @param toMicros farthest, not below {@code fromMicros}; {@link #UNBOUNDED} for no end
 */
public record Bounds(long fromMicros, long toMicros) {

  /** No farthest moment. */
  public static final long UNBOUNDED = Long.MAX_VALUE;

  /** The longest finite bound: about 31 years, so that sums of times stay in a long. */
  public static final long LONGEST_MICROS = 1_000_000_000_000_000L;

  /** From now without end. */
  public static final Bounds ALL = new Bounds(0, UNBOUNDED);

  public Bounds {
    if (fromMicros < 0
        || fromMicros > LONGEST_MICROS
        || toMicros < fromMicros
        || (toMicros > LONGEST_MICROS && toMicros != UNBOUNDED)) {
      throw new IllegalArgumentException("fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
  }

  /** From now to so long from now. */
  public static Bounds within(long micros) {
    return new Bounds(0, micros);
  }

  public boolean bounded() {
    return toMicros != UNBOUNDED;
  }
}
