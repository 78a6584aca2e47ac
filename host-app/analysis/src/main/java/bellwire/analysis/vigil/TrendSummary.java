package bellwire.analysis.vigil;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * How the resistances of a trend vigil went.
 *
 * @param conductors by port
 * @param common relative change that all shared, last quarter over first; empty with fewer than
 *     three, for then nothing tells whose it is
 * @param kelvin what temperature of copper that is
 * @param blockMicros values were averaged over so long, until neighbours were independent
 * @param falseAlarmDays watched so long, a CUSUM of one conductor alarms once without a change, on
 *     average
 */
public record TrendSummary(
    Watch watch,
    List<ConductorTrend> conductors,
    Optional<Quantity> common,
    double kelvin,
    long blockMicros,
    double falseAlarmDays) {
  public TrendSummary {
    conductors = List.copyOf(conductors);
  }

  /**
   * @param series one a conductor
   */
  public static TrendSummary of(Watch watch, List<TrendSeries> series) {
    return new TrendFit(watch, series).summary();
  }
}
