package bellwire.analysis.vigil;

/**
 * From which rise and duration a connector test counts a disturbance. The name is the test's; the
 * shorter ones are beyond what a cable lets through, see {@link #canBeShown}.
 */
public enum DisturbanceLimit {
  /** ASTM B878-97 (2019), shortest duration. */
  ASTM_B878_1_NS("ASTM B878", 0.001, true),
  /** ASTM B878-97 (2019). */
  ASTM_B878_10_NS("ASTM B878", 0.010, true),
  /** ASTM B878-97 (2019), longest duration. */
  ASTM_B878_50_NS("ASTM B878", 0.050, true),
  /** Quoted at second hand; the text was not read. */
  EIA_364_46("EIA-364-46", 1, false);

  private static final double RISE_OHMS = 10;

  private final String standard;
  private final double durationMicros;
  private final boolean read;

  DisturbanceLimit(String standard, double durationMicros, boolean read) {
    this.standard = standard;
    this.durationMicros = durationMicros;
    this.read = read;
  }

  public String standard() {
    return standard;
  }

  /** A contact resistance that has risen by so much is a disturbance. */
  public double riseOhms() {
    return RISE_OHMS;
  }

  public double durationMicros() {
    return durationMicros;
  }

  /** False for a figure at second hand: it is shown as such, and nothing passes or fails by it. */
  public boolean read() {
    return read;
  }

  /** Whether a watch that lets nothing shorter through can claim to have kept this limit. */
  public boolean canBeShown(double shortestMicros) {
    return shortestMicros <= durationMicros;
  }
}
