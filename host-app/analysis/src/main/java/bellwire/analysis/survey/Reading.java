package bellwire.analysis.survey;

/**
 * What the converter said to one {@link Probe}.
 *
 * @param probe what was asked
 * @param volts mean over the repeats, at the converter's input
 * @param scatterVolts standard deviation of one reading, from the repeats; NaN for a single one
 * @param overloaded an input or stage left its range, so that the value means nothing
 */
public record Reading(Probe probe, double volts, double scatterVolts, boolean overloaded) {
  private static final double FULL_SCALE = 1 << 23;

  /**
   * From raw codes. Theory (23).
   *
   * @param codes signed 24-bit converter codes, one for each repeat
   * @param referenceVolts the converter's reference
   */
  public static Reading ofCodes(
      Probe probe, int[] codes, double referenceVolts, boolean overloaded) {
    if (codes.length == 0) {
      throw new IllegalArgumentException("codes=0");
    }
    double scale = referenceVolts / FULL_SCALE / probe.gain();
    double sum = 0;
    for (int code : codes) {
      sum += code;
    }
    double mean = sum / codes.length;
    double squares = 0;
    for (int code : codes) {
      squares += (code - mean) * (code - mean);
    }
    double scatter =
        codes.length < 2 ? Double.NaN : Math.sqrt(squares / (codes.length - 1)) * scale;
    return new Reading(probe, mean * scale, scatter, overloaded);
  }
}
