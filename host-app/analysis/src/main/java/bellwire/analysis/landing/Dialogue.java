package bellwire.analysis.landing;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Questions and answers that narrow the causes down. Mutable, for one thread. */
public final class Dialogue {

  /** How far it is. */
  public enum Outcome {
    /** There is a next question. */
    OPEN,
    /** One cause is left, or several that nothing tells apart. */
    FOUND,
    /** No further question known here tells what is left apart. */
    UNDECIDED
  }

  /**
   * The next step.
   *
   * @param bits information expected of it (theory (85))
   */
  public record Question(Measurement measurement, double bits) {}

  Dialogue() {}

  /** Most probable first; those below one in a thousand are left out. */
  public List<Cause> causes() {
    throw new UnsupportedOperationException("answers=0");
  }

  public Outcome outcome() {
    throw new UnsupportedOperationException("answers=0");
  }

  /** The next question; null unless the outcome is OPEN. */
  public @Nullable Question next() {
    throw new UnsupportedOperationException("answers=0");
  }

  /**
   * Answers the next question.
   *
   * @param answer index into the measurement's answers
   */
  public void answer(int answer) {
    throw new UnsupportedOperationException("answer=" + answer);
  }

  /** The next question can't be answered: it isn't asked again. */
  public void dontKnow() {
    throw new UnsupportedOperationException("answers=0");
  }

  /** Takes back the last answer or 'don't know'; nothing happens where there is none. */
  public void undo() {
    throw new UnsupportedOperationException("answers=0");
  }
}
