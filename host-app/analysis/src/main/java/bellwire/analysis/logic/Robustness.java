package bellwire.analysis.logic;

/**
 * What is known of a formula's robustness at one moment: it lies between two numbers, both
 * included. Above zero the formula holds, below zero it does not; exactly zero says neither.
 *
 * @param low not above {@code high}; minus infinity where nothing is known
 * @param high plus infinity where nothing is known
 */
public record Robustness(double low, double high) {

  public static final Robustness UNKNOWN =
      new Robustness(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

  public static final Robustness TRUE =
      new Robustness(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  public static final Robustness FALSE =
      new Robustness(Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY);

  public Robustness {
    if (!(low <= high)) {
      throw new IllegalArgumentException("low=" + low + " high=" + high);
    }
    // One zero: minus zero is no value of its own.
    low += 0.0;
    high += 0.0;
  }

  public static Robustness exactly(double value) {
    return new Robustness(value, value);
  }

  public Verdict verdict() {
    if (low > 0) {
      return Verdict.KEPT;
    }
    return high < 0 ? Verdict.BROKEN : Verdict.UNDECIDED;
  }

  public boolean contains(Robustness other) {
    return low <= other.low && other.high <= high;
  }
}
