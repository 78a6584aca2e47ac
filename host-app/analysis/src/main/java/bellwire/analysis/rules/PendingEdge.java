package bellwire.analysis.rules;

/**
 * A change of some of a rule's facts, as bits, at one moment between two device times.
 *
 * @param touched the facts that change
 * @param holding those of them that are the case from then on
 * @param unknown those of them that are not known from then on
 */
record PendingEdge(long touched, long holding, long unknown, long earliest, long latest) {

  /** Of two at the same moment, the later told wins. */
  PendingEdge with(PendingEdge later) {
    return new PendingEdge(
        touched | later.touched,
        holding & ~later.touched | later.holding,
        unknown & ~later.touched | later.unknown,
        earliest,
        latest);
  }

  boolean exact() {
    return earliest == latest;
  }
}
