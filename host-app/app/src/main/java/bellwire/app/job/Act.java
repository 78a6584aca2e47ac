package bellwire.app.job;

/**
 * What a person did for safety's sake, and says so.
 *
 * @param id its key; 0 before it is in the file
 * @param what was switched off, proved, clipped or replaced, in words
 * @param reading of the meter, in words; may be empty
 * @param by whom
 * @param atUnixMicros when, by the wall clock
 * @param withdrawn recorded by mistake: it stays in the file, and counts no more
 */
public record Act(
    long id,
    Kind kind,
    String what,
    String reading,
    String by,
    long atUnixMicros,
    boolean withdrawn) {
  /** Which act. */
  public enum Kind {
    CAUTIONS_READ,
    SWITCHED_OFF,
    PROVED_DEAD,
    CLIPPED_TO_METAL,
    SWITCHED_ON,
    FUSE_REPLACED
  }
}
