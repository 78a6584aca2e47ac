package bellwire.link;

/** The board's own check resistors, joined from drive bus to return bus. */
public enum Check {
  NONE,
  LOW,
  HIGH
}
