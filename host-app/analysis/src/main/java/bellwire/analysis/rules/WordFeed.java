package bellwire.analysis.rules;

/**
 * Feeds a monitor with samples of its first facts as the bits of a word: the least significant is
 * fact 0. Only where a word differs from the one before does it cost anything.
 */
public final class WordFeed {
  private final RuleMonitor monitor;
  private final int facts;
  private boolean begun;
  private long before;
  private int last;

  /**
   * @param facts at most 32
   */
  public WordFeed(RuleMonitor monitor, int facts) {
    if (facts < 1 || facts > Integer.SIZE) {
      throw new IllegalArgumentException("facts=" + facts);
    }
    this.monitor = monitor;
    this.facts = facts;
  }

  /** A sample; what differs changed between the sample before and this one. */
  public void sample(long micros, int word) {
    if (word != last || !begun) {
      changed(micros, word);
    }
    before = micros;
  }

  private void changed(long micros, int word) {
    long earliest = begun ? before : micros;
    int differs = begun ? word ^ last : -1;
    if (begun) {
      monitor.advance(earliest);
    }
    for (int fact = 0; fact < facts; fact++) {
      if ((differs >> fact & 1) != 0) {
        monitor.change(fact, Truth.of((word >> fact & 1) != 0), earliest, micros);
      }
    }
    last = word;
    begun = true;
  }
}
