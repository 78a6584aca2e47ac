package bellwire.analysis.rules;

/**
 * A duration, or room to a bound, that lies between two values.
 *
 * @param lowMicros {@link Long#MIN_VALUE} where it has no lower end
 * @param highMicros {@link Long#MAX_VALUE} where it has no upper end
 */
public record Span(long lowMicros, long highMicros) {
  public Span {
    if (lowMicros > highMicros) {
      throw new IllegalArgumentException("lowMicros=" + lowMicros + " highMicros=" + highMicros);
    }
  }

  /** The smallest span with both in it. */
  public Span hull(Span other) {
    return new Span(Math.min(lowMicros, other.lowMicros), Math.max(highMicros, other.highMicros));
  }
}
