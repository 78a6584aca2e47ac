package bellwire.analysis.rules;

/** Whether a fact is the case. */
public enum Truth {
  FALSE,
  TRUE,
  /** Not known: it may have been anything, and have changed any number of times. */
  UNKNOWN;

  public static Truth of(boolean holds) {
    return holds ? TRUE : FALSE;
  }

  public Truth not() {
    return switch (this) {
      case FALSE -> TRUE;
      case TRUE -> FALSE;
      case UNKNOWN -> UNKNOWN;
    };
  }
}
