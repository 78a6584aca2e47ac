package bellwire.analysis.vigil;

/**
 * An opening (or, in a touch vigil, a touch) of one port. Theory (93).
 *
 * @param port from 0
 * @param firstMicros reading that showed it first, device time
 * @param lastMicros reading that showed it last
 * @param times how often it opened within {@link EventLimits#rejoinMicros}
 * @param latched no reading found it open: only latches tell, each is shorter than a tick
 * @param cutBefore it may have begun earlier, where nothing was known
 * @param cutAfter it may have gone on, where nothing was known
 */
public record VigilEvent(
    int port,
    long firstMicros,
    long lastMicros,
    int times,
    boolean latched,
    boolean cutBefore,
    boolean cutAfter) {

  /** What it lasted at least. */
  public long leastMicros() {
    return latched ? 0 : lastMicros - firstMicros;
  }

  /** What it lasted less than, as far as it was watched. */
  public long mostMicros(long tickMicros) {
    return lastMicros - firstMicros + (latched ? tickMicros : 2 * tickMicros);
  }

  public boolean cut() {
    return cutBefore || cutAfter;
  }
}
