package bellwire.analysis.vigil;

import org.hipparchus.distribution.discrete.BinomialDistribution;

/**
 * Whether events follow the marks of a person who shook the cable. Theory (117).
 *
 * @param marks how many
 * @param near events within {@link #AFTER_MICROS} after one
 * @param events in all
 * @param expected of them near one at random
 * @param chance of so many near one at random
 */
public record MarkEffect(int marks, long near, long events, double expected, double chance) {
  public static final long AFTER_MICROS = 2_000_000;

  private static final double LEVEL = 0.01;

  /**
   * @param micros when each event began
   */
  public static MarkEffect of(long[] micros, long[] markMicros, Exposure exposure) {
    long near = 0;
    for (long each : micros) {
      boolean follows = false;
      for (long mark : markMicros) {
        follows |= each >= mark && each < mark + AFTER_MICROS;
      }
      near += follows ? 1 : 0;
    }
    double share =
        exposure.micros() == 0
            ? 0
            : (double) exposure.within(markMicros, AFTER_MICROS) / exposure.micros();
    double chance =
        near == 0
            ? 1
            : 1
                - new BinomialDistribution(micros.length, Math.min(1, share))
                    .cumulativeProbability((int) near - 1);
    return new MarkEffect(markMicros.length, near, micros.length, share * micros.length, chance);
  }

  /** More follow than at random, and at least half of all. */
  public boolean explains() {
    return chance < LEVEL && 2 * near >= events;
  }

  /** More follow than at random. */
  public boolean follows() {
    return chance < LEVEL;
  }
}
