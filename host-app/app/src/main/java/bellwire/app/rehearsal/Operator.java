package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.app.survey.InstrumentTrouble;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Who carries out the steps: a person at the terminal, the script of a simulation, or a recording.
 */
public interface Operator {

  /** What to do with the step that is next. */
  enum Choice {
    /** The operator does it, or has done it between the question and now. */
    DO,
    SKIP,
    END
  }

  /** What to do when a step is over. */
  enum Next {
    /** Keep waiting: the step is not over for the operator. */
    WAIT,
    GO_ON,
    REPEAT,
    END
  }

  /**
   * @param reason why skipped or ended, or how it is done where that matters, in the operator's
   *     words
   * @param between when it was done, where that is known better than by when it was asked and
   *     answered
   */
  record Answer(Choice choice, String reason, @Nullable Between between) {
    public Answer(Choice choice, String reason) {
      this(choice, reason, null);
    }
  }

  /** Two moments of the device. */
  record Between(long earliestMicros, long latestMicros) {}

  /**
   * A moment in a step, for the operator to look at.
   *
   * @param reached the step's goal is reached and has been held long enough
   * @param late the step has waited as long as it may
   * @param leftMicros until it gives up, or until the goal has been held long enough
   * @param nowMicros the device's time
   */
  record Moment(
      Step step,
      List<Level> levels,
      boolean goal,
      boolean reached,
      boolean late,
      long leftMicros,
      long nowMicros) {}

  /** Lets time pass while the operator is waited for. */
  interface Idle {
    /** A tenth of a second at most; returns the terminals' levels. */
    List<Level> pass() throws InstrumentTrouble;
  }

  /** Asks for a step to be done; returns once it is done. */
  Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble;

  /** Told, in place of {@link #begin}, of a step that the hands of a simulation do now. */
  default void told(Step step, int number, int of) {}

  /** Asked often while a step is in force. */
  Next look(Moment moment);

  /**
   * What the equipment was seen or heard to do in a step, empty where that was not asked; of an
   * attempt that is repeated, why.
   */
  String observe(Step step, Idle idle) throws InstrumentTrouble;
}
