package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import org.hipparchus.stat.descriptive.rank.Median;

/**
 * Finds a conductor whose resistance stands out from its fellows: median and median absolute
 * deviation, the latter no less than what spread, contacts and the readings' own uncertainty
 * explain. Theory (15).
 */
final class JointTest {
  /** Makes the median absolute deviation of a normal distribution its standard deviation. */
  private static final double NORMAL = 1.4826;

  /**
   * Standard error of the median over that of the mean, for many normal values: √(π/2). A little
   * too much for few.
   */
  private static final double MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

  private final Map<Integer, Quantity> conductors;
  private final Criteria criteria;
  private final double median;
  private final double mad;
  private final boolean enough;

  JointTest(Map<Integer, Quantity> conductors, Criteria criteria) {
    this.conductors = conductors;
    this.criteria = criteria;
    double[] ohms = conductors.values().stream().mapToDouble(Quantity::value).toArray();
    enough = ohms.length >= 3;
    median = ohms.length == 0 ? Double.NaN : new Median().evaluate(ohms);
    mad =
        ohms.length == 0
            ? Double.NaN
            : NORMAL
                * new Median()
                    .evaluate(Arrays.stream(ohms).map(x -> Math.abs(x - median)).toArray());
  }

  /**
   * What the conductors have in common; the deviations of one conductor from the next are
   * independent, by far the greatest being their contacts and their spread. Value NaN without
   * conductors.
   */
  Quantity median() {
    double variance = 0;
    for (Quantity ohms : conductors.values()) {
      variance += ohms.u() * ohms.u() + Math.pow(criteria.spread() * median, 2);
    }
    int n = conductors.size();
    if (n == 0) {
      return Quantity.ohms(Double.NaN, Double.POSITIVE_INFINITY);
    }
    double ofMean = Math.sqrt(variance) / n;
    return Quantity.ohms(median, n < 3 ? ofMean : MEDIAN_OVER_MEAN * ofMean);
  }

  /** Excess of each conductor that stands out, by port. */
  Map<Integer, Quantity> standingOut() {
    Map<Integer, Quantity> out = new LinkedHashMap<>();
    if (!enough) {
      return out;
    }
    conductors.forEach(
        (port, ohms) -> {
          double expected = Math.hypot(ohms.u(), criteria.spread() * median);
          // Beyond a few times what is expected the deviation itself is made by faults: it must not
          // hide them.
          double sigma = Math.max(expected, Math.min(mad, 2 * expected));
          double excess = ohms.value() - median;
          if (excess > Math.max(criteria.jointSigmas() * sigma, criteria.jointFloorOhms())) {
            out.put(port, Quantity.ohms(excess, sigma));
          }
        });
    return out;
  }
}
