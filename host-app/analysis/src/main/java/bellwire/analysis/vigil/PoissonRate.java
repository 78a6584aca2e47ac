package bellwire.analysis.vigil;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/**
 * A count of events that come at random, independently of one another, in a time of watching.
 *
 * @param events how many were seen
 * @param seconds watched, gaps left out
 */
public record PoissonRate(long events, double seconds) {

  public PoissonRate {
    if (events < 0 || !(seconds > 0 && Double.isFinite(seconds))) {
      throw new IllegalArgumentException("events=" + events + " seconds=" + seconds);
    }
  }

  /** Events per second. */
  public double perSecond() {
    return events / seconds;
  }

  /** Exact two-sided interval of the rate per second (Garwood 1936). Theory (104). */
  public Interval perSecond(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("confidence=" + confidence);
    }
    double tail = (1 - confidence) / 2;
    double low =
        events == 0
            ? 0
            : new ChiSquaredDistribution(2.0 * events).inverseCumulativeProbability(tail) / 2;
    double high =
        new ChiSquaredDistribution(2.0 * events + 2).inverseCumulativeProbability(1 - tail) / 2;
    return new Interval(low / seconds, high / seconds);
  }

  /**
   * The rate of all events, where each is seen with this chance, independently: as if watched for
   * so much less time. Theory (96).
   */
  public PoissonRate seenWith(double chance) {
    if (!(chance > 0 && chance <= 1)) {
      throw new IllegalArgumentException("chance=" + chance);
    }
    return new PoissonRate(events, seconds * chance);
  }
}
