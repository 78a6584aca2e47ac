package bellwire.analysis.loop;

/**
 * What decides a circuit's impedances.
 *
 * @param closed bit i: the control's contact i is closed
 * @param pulledIn bit i: load i is pulled in
 */
record Condition(long closed, long pulledIn) {
  /** Loads, and contacts of a control. */
  static final int MOST = Long.SIZE - 1;

  /** Number of a load that is missing. */
  static final int NEVER = Long.SIZE - 1;

  boolean closed(int contact) {
    return (closed >>> contact & 1) != 0;
  }

  /** Whether any of some contacts is closed. */
  boolean ends(long contacts) {
    return (closed & contacts) != 0;
  }

  boolean pulledIn(int load) {
    return (pulledIn >>> load & 1) != 0;
  }
}
