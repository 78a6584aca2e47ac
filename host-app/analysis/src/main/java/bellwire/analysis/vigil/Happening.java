package bellwire.analysis.vigil;

/** What happened to a conductor, a pair or a lead. */
public enum Happening {
  OPENING,
  TOUCH,
  /** A call was gone for a moment. */
  DROP_OUT,
  /** A call for a moment only. */
  STRAY_CALL
}
