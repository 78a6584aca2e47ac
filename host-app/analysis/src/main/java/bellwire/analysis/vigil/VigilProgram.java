package bellwire.analysis.vigil;

/** What a vigil watches for. */
public enum VigilProgram {
  /** Openings, far ends tied or in a plug. */
  CONTINUITY,
  /** Touches, far ends open. */
  TOUCH,
  /** Resistances, far ends tied. */
  TREND,
  /** A control's calls. */
  CALLS
}
