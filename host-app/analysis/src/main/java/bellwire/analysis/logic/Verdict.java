package bellwire.analysis.logic;

/** What can be said of a formula. */
public enum Verdict {
  /** It holds, whatever the unknown parts of the signals are. */
  KEPT,
  /** It does not hold, whatever the unknown parts are. */
  BROKEN,
  /** The unknown decides, or the robustness is exactly zero. */
  UNDECIDED
}
