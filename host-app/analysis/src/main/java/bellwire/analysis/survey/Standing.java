package bellwire.analysis.survey;

/** What is said of a conductor or a pair. */
public enum Standing {
  SOUND,
  FAULTY,
  UNDECIDED
}
