package bellwire.analysis.vigil;

/**
 * What is one event, and which ones count.
 *
 * @param gapMicros readings further apart leave a gap in which nothing is known; a few ticks, for
 *     readings come late now and then
 * @param leastMicros an event that can't have lasted so long is dropped; 0 keeps all
 * @param rejoinMicros an opening that follows the one before within so long belongs to it
 */
public record EventLimits(long gapMicros, long leastMicros, long rejoinMicros) {

  public EventLimits {
    if (gapMicros < 1 || leastMicros < 0 || rejoinMicros < 0) {
      throw new IllegalArgumentException(
          "gapMicros="
              + gapMicros
              + " leastMicros="
              + leastMicros
              + " rejoinMicros="
              + rejoinMicros);
    }
  }
}
