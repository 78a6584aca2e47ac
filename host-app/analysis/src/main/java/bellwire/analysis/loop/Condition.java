package bellwire.analysis.loop;

import org.jspecify.annotations.Nullable;

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

  // A record's own is slow until it is compiled.
  @Override
  public int hashCode() {
    return Long.hashCode(31 * closed + pulledIn);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Condition c && closed == c.closed && pulledIn == c.pulledIn;
  }

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
