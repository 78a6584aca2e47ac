package bellwire.analysis.calls;

/**
 * A sine behind a threshold: docs/theory.md, equations (50) to (52). The conduction angle of a
 * source that conducts only above a threshold is the textbook one of a half-wave rectifier that
 * charges a battery.
 */
public final class Conduction {
  private Conduction() {}

  /**
   * The share of the time in which a sine's magnitude is above a threshold, equation (50); 0 where
   * it never is.
   *
   * @param thresholdVolts above 0
   * @param peakVolts of the sine
   */
  public static double share(double thresholdVolts, double peakVolts) {
    if (!(thresholdVolts > 0) || !(peakVolts >= 0)) {
      throw new IllegalArgumentException(
          "thresholdVolts=" + thresholdVolts + " peakVolts=" + peakVolts);
    }
    return peakVolts <= thresholdVolts
        ? 0
        : 1 - 2 / Math.PI * Math.asin(thresholdVolts / peakVolts);
  }

  /**
   * The sine's peak from its share, equation (51).
   *
   * @param share 0 to below 1
   */
  public static double peakVolts(double thresholdVolts, double share) {
    if (!(thresholdVolts > 0) || !(share >= 0 && share < 1)) {
      throw new IllegalArgumentException("thresholdVolts=" + thresholdVolts + " share=" + share);
    }
    return thresholdVolts / Math.sin(Math.PI / 2 * (1 - share));
  }
}
