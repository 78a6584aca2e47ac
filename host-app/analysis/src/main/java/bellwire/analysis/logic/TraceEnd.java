package bellwire.analysis.logic;

/** What becomes of the windows that reach beyond the end of a trace. */
public enum TraceEnd {
  /**
   * Nothing lies beyond: windows are cut off there. One that lies wholly beyond is empty, and makes
   * 'always' true and 'eventually' and 'until' false.
   */
  CUT,
  /**
   * What a bounded window would still have seen is unknown; unbounded ones are cut off. A promise
   * whose time is not up is undecided, and 'always' means as long as the trace goes.
   */
  PENDING,
  /** All beyond is unknown, and so is whether there is anything. */
  OPEN;

  /** Whether an operator meets the unknown beyond the end. */
  boolean unknownBeyond(boolean operatorIsBounded) {
    return this == OPEN || (this == PENDING && operatorIsBounded);
  }
}
