package bellwire.analysis.vigil;

/**
 * What is one event, and which ones count.
 *
 * @param tickMicros time from one reading to the next
 * @param leastMicros an event that can't have lasted so long is dropped; 0 keeps all
 * @param rejoinMicros an opening that follows the one before within so long belongs to it
 */
public record EventLimits(long tickMicros, long leastMicros, long rejoinMicros) {

  public EventLimits {
    if (tickMicros < 1 || leastMicros < 0 || rejoinMicros < 0) {
      throw new IllegalArgumentException(
          "tickMicros="
              + tickMicros
              + " leastMicros="
              + leastMicros
              + " rejoinMicros="
              + rejoinMicros);
    }
  }
}
