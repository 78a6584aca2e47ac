package bellwire.analysis.vigil;

/**
 * Conductors that touched. Times as in {@link VigilEvent}, lastMicros that of the last reading that
 * found them touching; the bounds reach as far as the touch may have been there without showing.
 *
 * @param drivenPorts were pulled low while driven; bit 0 for P1
 * @param possibleOthers one of these was the other one, bit {@link #METAL} for M; 0 where
 *     drivenPorts touched one another
 * @param latched it was over before the reading that tells of it
 */
public record Touch(
    int drivenPorts,
    int possibleOthers,
    long beforeMicros,
    long firstMicros,
    long lastMicros,
    long afterMicros,
    boolean latched,
    boolean cutBefore,
    boolean cutAfter) {
  /** Number of the bit that stands for M. */
  public static final int METAL = 16;

  /** All that touched are known. */
  public boolean decided() {
    return Integer.bitCount(possibleOthers) <= (Integer.bitCount(drivenPorts) == 1 ? 1 : 0);
  }

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
