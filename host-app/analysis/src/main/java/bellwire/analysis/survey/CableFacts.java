package bellwire.analysis.survey;

import bellwire.analysis.copper.Gauge;
import org.jspecify.annotations.Nullable;

/**
 * What the technician knows of the cable.
 *
 * @param gauge null if unknown
 * @param metres length of the run, NaN if unknown
 * @param celsius temperature of the copper
 * @param uCelsius its standard uncertainty
 */
public record CableFacts(@Nullable Gauge gauge, double metres, double celsius, double uCelsius) {

  /** Nothing known but that the copper is at room temperature, give or take. */
  public static CableFacts unknown() {
    return new CableFacts(null, Double.NaN, 22, 4);
  }
}
