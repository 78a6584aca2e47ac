package bellwire.simbench.file;

/**
 * A contact that opens, or two conductors that touch, now and then.
 *
 * @param portA the conductor, from 0
 * @param portB TOUCH: the other one, 16 for M; otherwise −1
 * @param at fraction of the length from the near end
 * @param shortestNanos of one occurrence; its logarithm is evenly distributed up to the longest
 * @param untilNanos none begins from then on
 */
public record Intermittent(
    Kind kind,
    int portA,
    int portB,
    double at,
    When when,
    long shortestNanos,
    long longestNanos,
    long fromNanos,
    long untilNanos) {

  /** What happens. */
  public enum Kind {
    OPENING,
    TOUCH
  }

  /** When it happens. One that would begin while the one before lasts is left out. */
  public sealed interface When {}

  /** At any time alike. */
  public record Poisson(double perHour) implements When {}

  /**
   * Bursts at any time alike.
   *
   * @param perHour bursts, counted from the end of the one before
   * @param events mean number in a burst, whose numbers are geometrically distributed from 1
   * @param gapNanos mean time between the starts of two, exponentially distributed
   */
  public record Bursts(double perHour, double events, long gapNanos) implements When {}

  /**
   * Once a cycle, such as a compressor's start.
   *
   * @param phaseNanos of the first, after the bench's start
   * @param jitterNanos either side, evenly distributed
   * @param chance that it happens in a cycle
   */
  public record Cycle(long periodNanos, long phaseNanos, long jitterNanos, double chance)
      implements When {}

  /**
   * At a rate that goes with a temperature, whose course is a cosine.
   *
   * @param perHour at the mean temperature
   * @param perKelvin relative change of the rate with the temperature, its exponent
   * @param swingKelvin from the mean to the warmest
   * @param warmestNanos when it is warmest for the first time
   */
  public record Temperature(
      double perHour, double perKelvin, double swingKelvin, long periodNanos, long warmestNanos)
      implements When {}

  /**
   * While something beside it runs and shakes it, at one point of its swing.
   *
   * @param periodNanos from one start of it to the next
   * @param phaseNanos its first start
   * @param chance of one swing
   */
  public record Vibration(
      long periodNanos, long phaseNanos, long runningNanos, double hertz, double chance)
      implements When {}
}
