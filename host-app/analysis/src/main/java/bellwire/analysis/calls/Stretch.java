package bellwire.analysis.calls;

/** Ones with only such gaps between them as a closed contact explains. */
final class Stretch {
  final long riseEarliest;
  final long riseLatest;
  final long firstOne;
  long lastOne;
  int gaps;
  long fallEarliest;
  long fallLatest;

  Stretch(long riseEarliest, long riseLatest, long firstOne) {
    this.riseEarliest = riseEarliest;
    this.riseLatest = riseLatest;
    this.firstOne = firstOne;
    lastOne = firstOne;
  }

  /** Shorter than a half period: by itself it may be a contact's touch or a weak voltage. */
  boolean touch() {
    return gaps == 0;
  }
}
