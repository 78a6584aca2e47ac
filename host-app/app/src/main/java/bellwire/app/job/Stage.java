package bellwire.app.job;

/** Before the work, or after it. */
public enum Stage {
  AS_FOUND,
  AS_LEFT
}
