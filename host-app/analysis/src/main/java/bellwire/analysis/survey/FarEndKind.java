package bellwire.analysis.survey;

/** What hangs on the far end, as far as it can be told from the near one. */
public enum FarEndKind {
  OPEN,
  CODED,
  TIE
}
