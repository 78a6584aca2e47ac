package bellwire.analysis.vigil;

import bellwire.analysis.uncertainty.Quantity;
import java.util.Optional;

/**
 * How one conductor's resistance went, the part that all share taken off. Theory (119) to (123).
 *
 * @param readings with a value
 * @param open readings without: open, or far from what was expected
 * @param mean of all values, with the uncertainty of one: most of it is common to all
 * @param leastOhms the least value of all, never averaged
 * @param leastMicros when
 * @param greatestOhms the greatest
 * @param greatestMicros when
 * @param course what its own part did
 * @param chance of a change or a rise that looks so much like one, where there is none; 1 where too
 *     little was read
 * @param changeMicros best time of a step
 * @param change of the step, or from the first to the last reading of a steady rise
 * @param perHour slope, in ohm per hour
 * @param alarm the first alarm of the CUSUM
 */
public record ConductorTrend(
    int port,
    long readings,
    long open,
    Quantity mean,
    double leastOhms,
    long leastMicros,
    double greatestOhms,
    long greatestMicros,
    Course course,
    double chance,
    long changeMicros,
    Quantity change,
    Quantity perHour,
    Optional<Alarm> alarm) {

  /** What its own part did. */
  public enum Course {
    TOO_FEW,
    STEADY,
    /** From one level to another. */
    STEP,
    /** On and on, up or down. */
    SLOPE
  }

  /**
   * A CUSUM's alarm.
   *
   * @param micros when it was raised
   * @param sinceMicros when the change began, by Page's estimate
   */
  public record Alarm(Cusum.Alarm side, long micros, long sinceMicros) {}
}
