package bellwire.analysis.vigil;

/**
 * Time in which nothing was known.
 *
 * @param reason in words, for people
 */
public record Unwatched(long fromMicros, long toMicros, String reason) {
  public Unwatched {
    if (toMicros < fromMicros) {
      throw new IllegalArgumentException("fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
  }
}
