package bellwire.analysis.vigil;

/**
 * An opening (or, in a touch vigil, a touch) of one port, between the readings around it. Device
 * time. Theory (93).
 *
 * @param port from 0
 * @param beforeMicros last reading before it began; firstMicros if it is cut there
 * @param firstMicros reading that showed it first
 * @param lastMicros reading that showed it last
 * @param afterMicros reading that showed its end; lastMicros if it is cut there
 * @param times how often it opened, see {@link EventLimits#rejoinMicros}
 * @param latched no reading found it open, only latches tell of it
 * @param cutBefore it may have begun earlier, where nothing was known
 * @param cutAfter it may have gone on, where nothing was known
 */
public record VigilEvent(
    int port,
    long beforeMicros,
    long firstMicros,
    long lastMicros,
    long afterMicros,
    int times,
    boolean latched,
    boolean cutBefore,
    boolean cutAfter) {

  /** What it lasted at least. */
  public long leastMicros() {
    return latched ? 0 : lastMicros - firstMicros;
  }

  /** What it lasted less than, as far as it was watched. */
  public long mostMicros() {
    return afterMicros - beforeMicros;
  }

  public boolean cut() {
    return cutBefore || cutAfter;
  }
}
