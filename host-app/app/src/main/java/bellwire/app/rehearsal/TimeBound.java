package bellwire.app.rehearsal;

/**
 * A named time of a rehearsal, the user's to change.
 *
 * @param basis where the value comes from, such as 'common practice, no source'
 */
public record TimeBound(String name, long micros, String basis) {
  /** The basis of a value that is not the file's. */
  public static final String SET_BY_USER = "set by the user";
}
