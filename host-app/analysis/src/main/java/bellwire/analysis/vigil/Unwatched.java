package bellwire.analysis.vigil;

/**
 * Time in which nothing was known.
 *
 * @param reason in words, for people
 * @param measured whether readings were made all the same, which show nothing
 */
public record Unwatched(long fromMicros, long toMicros, String reason, boolean measured) {
  public Unwatched {
    if (toMicros < fromMicros) {
      throw new IllegalArgumentException("fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
  }

  /** Nothing was measured. */
  public Unwatched(long fromMicros, long toMicros, String reason) {
    this(fromMicros, toMicros, reason, false);
  }

  /** The same, no longer than until then. */
  public Unwatched until(long micros) {
    return new Unwatched(fromMicros, Math.min(toMicros, micros), reason, measured);
  }
}
