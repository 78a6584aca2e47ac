package bellwire.analysis.logic;

/** What a trace, as far as it is known, says of a formula or a rule. */
public enum Verdict {
  /** It holds, whatever is not known. */
  KEPT,
  /** It does not hold, whatever is not known. */
  BROKEN,
  /** What is not known decides, or the trace ended before it was settled; or it is on its bound. */
  UNDECIDED
}
