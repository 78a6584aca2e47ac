package bellwire.analysis.survey;

import org.jspecify.annotations.Nullable;

/**
 * What the converter said to one {@link Probe}.
 *
 * @param probe what was asked
 * @param volts mean over the repeats, at the converter's input
 * @param scatterVolts standard deviation of one reading, from the repeats; NaN for a single one
 * @param overloaded an input or stage left its range, so that the value means nothing
 * @param series the repeats one by one; null where only their mean is known
 */
public record Reading(
    Probe probe, double volts, double scatterVolts, boolean overloaded, @Nullable Series series) {
  private static final double FULL_SCALE = 1 << 23;

  /**
   * Conversions back to back after one switching.
   *
   * @param endMicros device time at which each ended
   * @param volts at the converter's input, one for each
   */
  public record Series(long[] endMicros, double[] volts) {
    public Series {
      if (endMicros.length != volts.length) {
        throw new IllegalArgumentException(
            "endMicros=" + endMicros.length + " volts=" + volts.length);
      }
    }
  }

  public Reading(Probe probe, double volts, double scatterVolts, boolean overloaded) {
    this(probe, volts, scatterVolts, overloaded, null);
  }

  /**
   * From raw codes. Theory (23).
   *
   * @param codes signed 24-bit converter codes, one for each repeat
   * @param endMicros device time at which each conversion ended
   * @param referenceVolts the converter's reference
   */
  public static Reading ofCodes(
      Probe probe, int[] codes, long[] endMicros, double referenceVolts, boolean overloaded) {
    if (codes.length == 0) {
      throw new IllegalArgumentException("codes=0");
    }
    double scale = referenceVolts / FULL_SCALE / probe.gain();
    double sum = 0;
    double[] volts = new double[codes.length];
    for (int k = 0; k < codes.length; k++) {
      sum += codes[k];
      volts[k] = codes[k] * scale;
    }
    double mean = sum / codes.length;
    double squares = 0;
    for (int code : codes) {
      squares += (code - mean) * (code - mean);
    }
    double scatter =
        codes.length < 2 ? Double.NaN : Math.sqrt(squares / (codes.length - 1)) * scale;
    return new Reading(
        probe, mean * scale, scatter, overloaded, new Series(endMicros.clone(), volts));
  }
}
