package bellwire.analysis.rules;

/** What a trace says about a rule. */
public enum Verdict {
  /** It holds in every world that the measurement allows. */
  KEPT,
  /** It holds in none of them. */
  BROKEN,
  /** It holds in some; or the trace ended before it was settled. */
  UNDECIDED
}
