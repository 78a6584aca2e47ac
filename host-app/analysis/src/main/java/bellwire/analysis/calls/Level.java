package bellwire.analysis.calls;

/** What a lead of the call-sense connector sees on a control's terminal. */
public enum Level {
  /** No conduction. */
  OFF,
  /** Some voltage, too little or too seldom for a call: leakage, or one half wave only. */
  WEAK,
  /** A call's voltage, or a closed dry contact. */
  ON,
  /** Not known: samples are missing, or what is seen is neither mains nor a contact. */
  UNKNOWN
}
