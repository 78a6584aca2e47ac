package bellwire.app.drawing;

import bellwire.analysis.copper.Gauge;
import org.jspecify.annotations.Nullable;

/**
 * What the job knows of a cable beside its survey.
 *
 * @param metres length of the run, NaN where not known
 * @param gauge of the copper; null where not known
 * @param celsius of the copper
 * @param feet whether lengths are shown in feet
 */
public record Run(double metres, @Nullable Gauge gauge, double celsius, boolean feet) {
  private static final double CELSIUS = 22;

  /** Nothing but what the survey tells, in metres. */
  public static final Run UNKNOWN = new Run(Double.NaN, null, CELSIUS, false);

  /** Resistance of one conductor by gauge and length, theory (1) and (2); NaN where not known. */
  public double nominalOhms() {
    return gauge == null ? Double.NaN : gauge.ohmsPerMetre(celsius) * metres;
  }
}
