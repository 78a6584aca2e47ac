package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Quantity;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.hipparchus.stat.descriptive.rank.Median;

/**
 * Finds a conductor whose resistance stands out from its fellows: median and median absolute
 * deviation, the latter no less than what spread, contacts and the readings' own uncertainty
 * explain. Theory (15).
 *
 * <p>A joint adds resistance and never takes any away. So where fewer than half lie about the
 * median, or of few conductors one lies far below it, joints have moved the median itself, and the
 * lowest conductors are what the others are compared with.
 */
final class JointTest {
  /** Makes the median absolute deviation of a normal distribution its standard deviation. */
  private static final double NORMAL = 1.4826;

  /**
   * Standard error of the median over that of the mean, for many normal values: √(π/2). A little
   * too much for few.
   */
  private static final double MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

  /** How often what is expected the deviation may be: beyond that it is made by faults. */
  private static final double WIDEST = 2;

  /**
   * A conductor without a joint may be lower than its fellows where broken ones are bridged onto
   * it: two of them leave a third.
   */
  private static final double LOWEST_SHARE = 1.0 / 3;

  /** So many do not have the same joint by chance. */
  private static final int AGREEING = 3;

  private final Map<Integer, Quantity> conductors;
  private final Criteria criteria;
  private final double common;
  private final double mad;

  JointTest(Map<Integer, Quantity> conductors, Criteria criteria) {
    this.conductors = conductors;
    this.criteria = criteria;
    List<Quantity> all = List.copyOf(conductors.values());
    double median = medianOf(all, Quantity::value);
    common =
        jointsMoved(median) && lowest() < median
            ? medianOf(near(lowest()), Quantity::value)
            : median;
    mad = NORMAL * medianOf(all, q -> Math.abs(q.value() - common));
  }

  private static double medianOf(List<Quantity> ohms, ToDoubleFunction<Quantity> of) {
    return ohms.isEmpty()
        ? Double.NaN
        : new Median().evaluate(ohms.stream().mapToDouble(of).toArray());
  }

  private boolean jointsMoved(double median) {
    int agreeing = near(median).size();
    double far = LOWEST_SHARE * median - criteria.jointFloorOhms();
    return 2 * agreeing < conductors.size() || (agreeing < AGREEING && lowest() < far);
  }

  /** Of those that are known well enough to tell. */
  private double lowest() {
    return conductors.values().stream()
        .filter(q -> q.u() < criteria.jointFloorOhms() + Math.abs(q.value()) / 10)
        .mapToDouble(Quantity::value)
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** Conductors no farther from {@code ohms} than they may be without a joint. */
  private List<Quantity> near(double ohms) {
    return conductors.values().stream()
        .filter(q -> Math.abs(q.value() - ohms) <= limit(WIDEST * expected(q, ohms)))
        .toList();
  }

  private double expected(Quantity ohms, double about) {
    return Math.hypot(ohms.u(), criteria.spread() * about);
  }

  private double limit(double sigma) {
    return Math.max(criteria.jointSigmas() * sigma, criteria.jointFloorOhms());
  }

  /** Whether any conductor has a fellow to be compared with. */
  boolean compared() {
    return conductors.size() > 1;
  }

  /**
   * What the conductors have in common, as uncertain as those that do not stand out make it; the
   * deviations of one conductor from the next are independent, by far the greatest being their
   * contacts and their spread. Value NaN without conductors.
   */
  Quantity median() {
    double variance = 0;
    List<Quantity> fellows = near(common);
    for (Quantity ohms : fellows) {
      variance += ohms.u() * ohms.u() + Math.pow(criteria.spread() * common, 2);
    }
    int n = fellows.size();
    if (n == 0) {
      return Quantity.ohms(Double.NaN, Double.POSITIVE_INFINITY);
    }
    double ofMean = Math.sqrt(variance) / n;
    return Quantity.ohms(common, n < 3 ? ofMean : MEDIAN_OVER_MEAN * ofMean);
  }

  /** Whether a conductor has less resistance than its fellows explain, which no joint does. */
  boolean low(int port) {
    Quantity ohms = conductors.get(port);
    return ohms != null && common - ohms.value() > limit(expected(ohms, common));
  }

  /** Excess of each conductor that stands out, by port. */
  Map<Integer, Quantity> standingOut() {
    Map<Integer, Quantity> out = new LinkedHashMap<>();
    conductors.forEach(
        (port, ohms) -> {
          double expected = expected(ohms, common);
          double sigma = Math.max(expected, Math.min(mad, WIDEST * expected));
          double excess = ohms.value() - common;
          if (excess > limit(sigma)) {
            out.put(port, Quantity.ohms(excess, sigma));
          }
        });
    return out;
  }
}
