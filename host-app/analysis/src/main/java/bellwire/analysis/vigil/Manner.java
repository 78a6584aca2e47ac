package bellwire.analysis.vigil;

/** How events follow one another. */
public enum Manner {
  /** Fewer than five: nothing can be said. */
  TOO_FEW,
  /** Nothing against it. */
  AT_RANDOM,
  IN_BURSTS,
  EVENLY
}
