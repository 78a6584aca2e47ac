package bellwire.analysis.loop;

/**
 * What decides a circuit's impedances.
 *
 * @param closed bit i: the control's contact i is closed
 * @param pulledIn bit i: load i is pulled in
 */
record Condition(long closed, long pulledIn) {
  static final int MOST = Long.SIZE;

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
