package bellwire.analysis.logic;

/** Takes a formula's robustness as a signal. */
@FunctionalInterface
public interface RobustnessSink {

  /**
   * The next piece, beginning where the last one ended. Neighbours may have the same value.
   *
   * @param toMicros first moment behind it
   */
  void take(long fromMicros, long toMicros, Robustness value);
}
