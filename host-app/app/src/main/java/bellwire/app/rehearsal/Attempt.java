package bellwire.app.rehearsal;

/**
 * A step as it was done, or was not.
 *
 * @param earliestMicros device time, the operator had not begun before it
 * @param latestMicros by then the operator had done what the step says
 * @param endMicros when the step was over
 * @param reached whether its goal was reached and held
 * @param reason why it was skipped or set aside, in the operator's words; empty otherwise
 * @param observed what the equipment was seen or heard to do; empty where nobody looked
 */
public record Attempt(
    Step step,
    Fate fate,
    long earliestMicros,
    long latestMicros,
    long endMicros,
    boolean reached,
    String reason,
    String observed) {

  /** What became of a step. */
  public enum Fate {
    DONE,
    SKIPPED,
    /** Repeated: this attempt does not count. */
    SET_ASIDE,
    /** The rehearsal ended before it. */
    NOT_COME_TO
  }
}
