package bellwire.analysis.vigil;

/**
 * The period that times of events keep to best: a compressor's cycle, a fan. Rayleigh's
 * (Schuster's) test at each of a row of frequencies. Sharp pulses keep to a half or a third of
 * their period as well: the longest is taken that they keep to no worse. Theory (109). Bursts make
 * it claim too much: give it the first event of each.
 *
 * @param periodMicros the best
 * @param uMicros how far off it may be: half of the step to the next one tried
 * @param resultant mean resultant length, 0 to 1: 1 if all come at one point of the cycle
 * @param phase of the mean, as a fraction of the period after the watch began
 * @param chance that events at random show such a one at any of the frequencies tried, at most
 */
public record Period(
    double periodMicros, double uMicros, double resultant, double phase, double chance) {
  private static final int OVERSAMPLING = 4;
  private static final long MOST_WORK = 200_000_000;
  private static final int FEWEST = 5;
  private static final int MOST_HARMONIC = 6;
  private static final double NOISE = 3;
  private static final double SURE = 1e-3;
  private static final double SERIES_SHARE = 0.6;

  /**
   * Looks from the longest period to the shortest.
   *
   * @param micros five or more times, all within the watch, which must be unbroken
   * @param shortestMicros the more that lie between, the more is tried, the less is certain
   * @param longestMicros at most a third of the watch
   */
  public static Period best(
      long[] micros, long fromMicros, long toMicros, double shortestMicros, double longestMicros) {
    double span = (double) toMicros - fromMicros;
    double lowest = 1 / longestMicros;
    double step = 1 / (OVERSAMPLING * span);
    double tried = Math.floor((1 / shortestMicros - lowest) / step) + 1;
    if (micros.length < FEWEST
        || !(shortestMicros > 0 && shortestMicros <= longestMicros)
        || !(3 * longestMicros <= span)
        || tried * micros.length > MOST_WORK) {
      throw new IllegalArgumentException(
          "events="
              + micros.length
              + " spanMicros="
              + span
              + " shortestMicros="
              + shortestMicros
              + " longestMicros="
              + longestMicros);
    }
    double[] after = new double[micros.length];
    for (int i = 0; i < after.length; i++) {
      after[i] = (double) micros[i] - fromMicros;
      if (after[i] < 0 || after[i] > span) {
        throw new IllegalArgumentException("outside the watch: micros=" + micros[i]);
      }
    }
    double most = -1;
    double frequency = lowest;
    for (long i = 0; i < (long) tried; i++) {
      double[] mean = resultant(after, lowest + i * step, span);
      double length = Math.hypot(mean[0], mean[1]);
      if (length > most) {
        most = length;
        frequency = lowest + i * step;
      }
    }
    double one = chance(micros.length, Math.min(1, most));
    int harmonic = harmonic(after, frequency, lowest, span, most);
    double base = frequency / harmonic;
    double[] mean = resultant(after, base, span);
    double turn = Math.atan2(mean[1], mean[0]) / (2 * Math.PI);
    return new Period(
        1 / base,
        step / (2 * harmonic) / (base * base),
        Math.min(1, Math.hypot(mean[0], mean[1])),
        turn < 0 ? turn + 1 : turn,
        -Math.expm1(tried * Math.log1p(-one)));
  }

  /** Which multiple of the cycle's own frequency the best one is. */
  private static int harmonic(
      double[] after, double frequency, double lowest, double span, double most) {
    double u = Math.sqrt(Math.max(0, 1 - most * most) / after.length);
    for (int m = MOST_HARMONIC; m > 1; m--) {
      if (frequency / m >= lowest) {
        double[] mean = resultant(after, frequency / m, span);
        double length = Math.hypot(mean[0], mean[1]);
        if (length >= most - NOISE * u && chance(after.length, length) < SURE) {
          return m;
        }
      }
    }
    return 1;
  }

  /**
   * Rayleigh's test: chance that n directions at random have a mean resultant of this length or
   * more, as a series in 1/n below 50 (Fisher, Statistical Analysis of Circular Data, 1993). Where
   * few point almost the same way the series falls below 0: there by Zar's approximation, which is
   * never too small (Biostatistical Analysis).
   */
  static double chance(int n, double resultant) {
    double z = n * resultant * resultant;
    double series = 1;
    if (n < 50) {
      if (z > SERIES_SHARE * n) {
        double squares = (double) n * n - z * n;
        return Math.min(1, Math.exp(Math.sqrt(1 + 4.0 * n + 4 * squares) - (1 + 2.0 * n)));
      }
      series +=
          (2 * z - z * z) / (4.0 * n)
              - (24 * z - 132 * z * z + 76 * z * z * z - 9 * z * z * z * z) / (288.0 * n * n);
    }
    return Math.max(0, Math.min(1, Math.exp(-z) * series));
  }

  /** Mean direction vector less the one that a watch of unfinished cycles has of itself. */
  private static double[] resultant(double[] after, double frequency, double span) {
    double turns = 2 * Math.PI * frequency;
    double cos = 0;
    double sin = 0;
    for (double each : after) {
      cos += Math.cos(turns * each);
      sin += Math.sin(turns * each);
    }
    double whole = turns * span;
    return new double[] {
      cos / after.length - Math.sin(whole) / whole,
      sin / after.length - (1 - Math.cos(whole)) / whole
    };
  }
}
