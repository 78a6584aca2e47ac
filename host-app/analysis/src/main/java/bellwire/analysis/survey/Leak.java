package bellwire.analysis.survey;

/**
 * A conductance as measured, with the one-sided limit it stands against. Theory (17).
 *
 * @param siemens best estimate, may be negative by noise
 * @param u standard uncertainty
 */
public record Leak(double siemens, double u) {

  /** Standard uncertainties of the one-sided limit of detection. */
  public static final double SIGMAS = 5;

  /** Whether it stands out from nothing by {@link #SIGMAS} standard uncertainties. */
  public boolean detected() {
    return siemens > SIGMAS * u;
  }

  /** No conductance above this one is compatible with the reading. */
  public double upperSiemens() {
    return Math.max(siemens, 0) + SIGMAS * u;
  }

  /** The resistance that is certainly exceeded. */
  public double aboveOhms() {
    return 1 / upperSiemens();
  }
}
