package bellwire.app.job;

/**
 * How an item of the checklist stands.
 *
 * @param item its key in {@link Checklist}
 * @param basis how that is known
 * @param by whom; empty while open
 * @param atUnixMicros when it was last changed, by the wall clock
 */
public record Tick(
    String item, State state, Basis basis, String by, long atUnixMicros, String note) {
  /** What was done about it. */
  public enum State {
    OPEN,
    DONE,
    NOT_DONE,
    NOT_NEEDED
  }

  /** How it is known. */
  public enum Basis {
    /** An instrument said so. */
    MEASURED,
    /** A person saw, felt or did it. */
    WITNESSED,
    /** Nobody looked. */
    ASSUMED
  }
}
