package bellwire.analysis.vigil;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.Variance;

/** Whether events come in bursts, evenly, or at random. Theory (108). */
public final class Burstiness {
  private static final int MOST_WINDOWS = 1_000_000;

  private Burstiness() {}

  /**
   * Counts in windows of one length.
   *
   * @param fano variance over mean: 1 at random, more in bursts, less where they come evenly
   * @param chance of at least so much if they come at random (index of dispersion, χ²)
   */
  public record Dispersion(double fano, double chance) {}

  /**
   * Standard deviation over mean of the gaps: 0 for a clock, near 1 at random, more in bursts.
   *
   * @param micros three or more times, ascending
   */
  public static double gapVariation(long[] micros) {
    if (micros.length < 3) {
      throw new IllegalArgumentException("events=" + micros.length);
    }
    double[] gaps = new double[micros.length - 1];
    for (int i = 0; i < gaps.length; i++) {
      gaps[i] = (double) micros[i + 1] - micros[i];
      if (gaps[i] < 0) {
        throw new IllegalArgumentException("not in order of time: micros=" + micros[i + 1]);
      }
    }
    double mean = new Mean().evaluate(gaps);
    if (mean == 0) {
      throw new IllegalArgumentException("all at one moment: micros=" + micros[0]);
    }
    return Math.sqrt(new Variance().evaluate(gaps)) / mean;
  }

  /**
   * The dispersion of an unbroken watch, cut into windows.
   *
   * @param micros times of the events, all from fromMicros to before toMicros
   * @param windows 2 or more; longer than a burst each
   */
  public static Dispersion dispersion(long[] micros, long fromMicros, long toMicros, int windows) {
    if (windows < 2 || windows > MOST_WINDOWS || toMicros <= fromMicros) {
      throw new IllegalArgumentException(
          "windows=" + windows + " fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
    double[] counts = new double[windows];
    for (long each : micros) {
      if (each < fromMicros || each >= toMicros) {
        throw new IllegalArgumentException("outside the watch: micros=" + each);
      }
      double place = (double) (each - fromMicros) / (toMicros - fromMicros);
      counts[Math.min(windows - 1, (int) (place * windows))]++;
    }
    return ofCounts(counts);
  }

  /** The dispersion of counts; there must be an event in one of them at least. */
  static Dispersion ofCounts(double[] counts) {
    double mean = new Mean().evaluate(counts);
    if (!(mean > 0)) {
      throw new IllegalArgumentException("no event: windows=" + counts.length);
    }
    double fano = new Variance().evaluate(counts) / mean;
    int freedom = counts.length - 1;
    double below = new ChiSquaredDistribution(freedom).cumulativeProbability(fano * freedom);
    return new Dispersion(fano, 1 - below);
  }
}
