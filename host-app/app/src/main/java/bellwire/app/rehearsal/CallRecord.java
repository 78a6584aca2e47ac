package bellwire.app.rehearsal;

import bellwire.app.survey.BoardSaid;
import bellwire.link.Message;

/** Takes down what a rehearsal is made of, in the order in which it happens. */
public interface CallRecord {
  /** Takes nothing down. */
  CallRecord NONE = new CallRecord() {};

  /** Who answered; before all samples. */
  default void board(BoardSaid said) {}

  /** Raw samples, as the agent sent them. */
  default void samples(Message.CallSamples samples) {}

  /**
   * A step was begun between two device times.
   *
   * @param note how, where there is something to say
   */
  default void begun(Step step, long earliestMicros, long latestMicros, String note) {}

  default void skipped(Step step, long earliestMicros, long latestMicros, String reason) {}

  /** The operator ended the rehearsal before a step. */
  default void ended(Step step, long earliestMicros, long latestMicros, String reason) {}

  default void over(Step step, Operator.Next next) {}

  /** What the equipment was seen or heard to do. */
  default void observed(Step step, String words) {}

  /** The rehearsal was over at this device time. */
  default void finished(long micros) {}
}
