package bellwire.analysis.circuit;

/** Kinds of fuse, with what is published on their opening times. */
public enum FuseKind {
  BLADE,
  FAST,
  TIME_LAG,
  QUICK_ACTING,
  BREAKER
}
