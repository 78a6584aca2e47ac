package bellwire.analysis.vigil;

import java.util.Arrays;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.ranking.NaturalRanking;
import org.hipparchus.stat.ranking.TiesStrategy;

/**
 * The best split of a series into two levels. Both ways take the values to be independent: where
 * they drift together, as resistances do with the temperature, the chance is too small.
 *
 * @param before how many values lie before the change
 * @param statistic least squares: the greatest |t| of two means; Pettitt: K
 * @param chance that a series without a change shows such a split somewhere; at most, by least
 *     squares, and approximately, by Pettitt
 * @param meanBefore of the values before
 * @param meanAfter of the values after
 */
public record ChangePoint(
    int before, double statistic, double chance, double meanBefore, double meanAfter) {
  private static final int FEWEST = 4;

  /** The split that leaves the least sum of squares. Theory (102). */
  public static ChangePoint leastSquares(double[] values) {
    double mean = check(values);
    int n = values.length;
    double total = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    double sum = 0;
    double most = -1;
    int split = 1;
    for (int k = 1; k < n; k++) {
      sum += values[k - 1] - mean;
      double explained = sum * sum * n / ((double) k * (n - k));
      if (explained > most) {
        most = explained;
        split = k;
      }
    }
    double residual = Math.max(0, total - most);
    double t = most > 0 ? Math.sqrt(most * (n - 2) / residual) : 0;
    double one = 2 * new TDistribution(n - 2).cumulativeProbability(-t);
    return of(values, split, t, Math.min(1, (n - 1) * one));
  }

  /** Pettitt's rank test (1979), ties at their mean rank: outliers do it no harm. Theory (103). */
  public static ChangePoint pettitt(double[] values) {
    check(values);
    int n = values.length;
    double[] ranks = new NaturalRanking(TiesStrategy.AVERAGE).rank(values);
    double u = 0;
    double most = -1;
    int split = 1;
    for (int k = 1; k < n; k++) {
      u += 2 * ranks[k - 1] - (n + 1);
      if (Math.abs(u) > most) {
        most = Math.abs(u);
        split = k;
      }
    }
    double cubed = (double) n * n * n + (double) n * n;
    return of(values, split, most, Math.min(1, 2 * Math.exp(-6 * most * most / cubed)));
  }

  private static ChangePoint of(double[] values, int split, double statistic, double chance) {
    double before = Arrays.stream(values, 0, split).average().orElseThrow();
    double after = Arrays.stream(values, split, values.length).average().orElseThrow();
    return new ChangePoint(split, statistic, chance, before, after);
  }

  private static double check(double[] values) {
    double mean = Arrays.stream(values).average().orElse(Double.NaN);
    if (values.length < FEWEST || !Double.isFinite(mean)) {
      throw new IllegalArgumentException("values=" + values.length + " mean=" + mean);
    }
    return mean;
  }
}
