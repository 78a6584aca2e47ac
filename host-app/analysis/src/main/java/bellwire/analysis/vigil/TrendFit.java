package bellwire.analysis.vigil;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Takes the part that all conductors share off each, and asks what its own part did. Theory (119)
 * to (123).
 */
final class TrendFit {
  private static final int MOST_BLOCKS = 1024;
  private static final int FEWEST_BLOCKS = 24;
  private static final int FEWEST_FOR_COMMON = 3;

  /** Of neighbours' correlation so much is left in. */
  private static final double INDEPENDENT = 0.2;

  private static final double FALSE_ALARM_DAYS = 30;
  private static final double DAY_MICROS = 86_400e6;

  private final Watch watch;
  private final List<TrendSeries> series;

  TrendFit(Watch watch, List<TrendSeries> series) {
    this.watch = watch;
    this.series = List.copyOf(series);
  }

  TrendSummary summary() {
    int most = series.stream().mapToInt(s -> s.ohms().length).max().orElse(0);
    int blocks = Math.min(MOST_BLOCKS, most);
    while (blocks >= 2 * FEWEST_BLOCKS && !independent(blocks)) {
      blocks /= 2;
    }
    TrendBlocks blocked = blocked(Math.max(1, blocks));
    boolean[] steady = new boolean[series.size()];
    Arrays.fill(steady, true);
    // The one that moved most is left out of what all share, and the others are looked at again.
    int worst = mostMoved(blocked, steady);
    while (worst >= 0 && count(steady) > FEWEST_FOR_COMMON - 1) {
      steady[worst] = false;
      worst = mostMoved(blocked, steady);
    }
    List<ConductorTrend> trends = new ArrayList<>();
    for (int s = 0; s < series.size(); s++) {
      trends.add(finder(blocked, steady, s).trend(FALSE_ALARM_DAYS * DAY_MICROS));
    }
    Optional<Quantity> change = change(common(blocked, steady, -1));
    return new TrendSummary(
        watch,
        trends,
        change,
        change.map(c -> c.value() / Gauge.ALPHA).orElse(Double.NaN),
        blocked.blockMicros(),
        FALSE_ALARM_DAYS);
  }

  private TrendBlocks blocked(int blocks) {
    return TrendBlocks.of(series, watch.fromMicros(), watch.toMicros(), blocks);
  }

  private CourseFinder finder(TrendBlocks blocked, boolean[] steady, int of) {
    return new CourseFinder(series.get(of), blocked, own(blocked, steady, of));
  }

  /**
   * Of the steady ones that which moved by most of its resistance; -1 where none has moved. One
   * that moves takes the others along the other way, by its share in what they are held against: by
   * less.
   */
  private int mostMoved(TrendBlocks blocked, boolean[] steady) {
    int worst = -1;
    double most = 0;
    for (int s = 0; s < steady.length && series.size() >= FEWEST_FOR_COMMON; s++) {
      if (steady[s]) {
        double moved = finder(blocked, steady, s).moved();
        worst = moved > most ? s : worst;
        most = Math.max(most, moved);
      }
    }
    return worst;
  }

  private static int count(boolean[] steady) {
    int count = 0;
    for (boolean each : steady) {
      count += each ? 1 : 0;
    }
    return count;
  }

  private boolean independent(int blocks) {
    TrendBlocks blocked = blocked(blocks);
    boolean[] all = new boolean[series.size()];
    Arrays.fill(all, true);
    double[] correlations = new double[series.size()];
    for (int s = 0; s < correlations.length; s++) {
      correlations[s] = correlation(own(blocked, all, s));
    }
    return TrendBlocks.median(correlations) < INDEPENDENT;
  }

  /**
   * Of neighbours, by their differences, so that a step or a slope does not count: those of
   * independent values are themselves correlated by minus a half.
   */
  static double correlation(double[] values) {
    double[] there = Arrays.stream(values).filter(v -> !Double.isNaN(v)).toArray();
    if (there.length < FEWEST_BLOCKS / 2) {
      return 0;
    }
    double[] steps = new double[there.length - 1];
    for (int i = 0; i < steps.length; i++) {
      steps[i] = there[i + 1] - there[i];
    }
    double middle = TrendBlocks.median(steps);
    double spread =
        TrendBlocks.median(Arrays.stream(steps).map(v -> Math.abs(v - middle)).toArray());
    double squares = 0;
    double products = 0;
    double previous = 0;
    for (int i = 0; i < steps.length; i++) {
      // A single step would count as much as all the rest.
      double each = Math.max(-6 * spread, Math.min(6 * spread, steps[i] - middle));
      squares += each * each;
      products += i == 0 ? 0 : each * previous;
      previous = each;
    }
    return squares == 0 ? 0 : 1 + 2 * products / squares;
  }

  /**
   * Relative change that the steady ones share, by block, by least squares; NaN where none was
   * read.
   *
   * @param but left out, for what it did itself must not be taken off it; -1 for none
   */
  private double[] common(TrendBlocks blocked, boolean[] steady, int but) {
    double[] common = new double[blocked.blocks()];
    if (series.size() < FEWEST_FOR_COMMON) {
      return common;
    }
    double[] products = new double[common.length];
    double[] squares = new double[common.length];
    for (int s = 0; s < series.size(); s++) {
      double level = level(blocked.mean()[s]);
      for (int b = 0; b < common.length && steady[s] && s != but; b++) {
        double value = blocked.mean()[s][b];
        if (!Double.isNaN(value)) {
          products[b] += level * (value - level);
          squares[b] += level * level;
        }
      }
    }
    for (int b = 0; b < common.length; b++) {
      common[b] = products[b] / squares[b];
    }
    return common;
  }

  /** Of copper, before its own part did anything: the first quarter. */
  private static double level(double[] values) {
    double[] first = present(values, 0, (values.length + 3) / 4);
    return first.length > 0 ? mean(first) : TrendBlocks.median(values);
  }

  private double[] own(TrendBlocks blocked, boolean[] steady, int of) {
    double[] common = common(blocked, steady, of);
    double[] own = blocked.mean()[of].clone();
    double level = level(own);
    for (int b = 0; b < common.length; b++) {
      own[b] -= level * common[b];
    }
    return own;
  }

  private Optional<Quantity> change(double[] common) {
    int quarter = common.length / 4;
    if (series.size() < FEWEST_FOR_COMMON || quarter < 2) {
      return Optional.empty();
    }
    double[] first = present(common, 0, quarter);
    double[] last = present(common, common.length - quarter, common.length);
    if (first.length < 2 || last.length < 2) {
      return Optional.empty();
    }
    double change = mean(last) - mean(first);
    double u = Math.hypot(meanDeviation(first), meanDeviation(last));
    return Optional.of(new Quantity(change, u, ""));
  }

  static double[] present(double[] values, int from, int to) {
    return Arrays.stream(values, from, to).filter(v -> !Double.isNaN(v)).toArray();
  }

  static double mean(double[] values) {
    return Arrays.stream(values).average().orElse(Double.NaN);
  }

  /** Standard deviation of the mean of independent values. */
  static double meanDeviation(double[] values) {
    return deviation(values) / Math.sqrt(values.length);
  }

  static double deviation(double[] values) {
    double mean = mean(values);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return Math.sqrt(squares / (values.length - 1));
  }
}
