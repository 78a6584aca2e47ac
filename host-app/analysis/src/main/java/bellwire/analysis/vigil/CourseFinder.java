package bellwire.analysis.vigil;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.analysis.vigil.ConductorTrend.Course;
import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.regression.SimpleRegression;

/** What one conductor's own part did, by blocks that are independent. Theory (121) to (123). */
final class CourseFinder {
  private static final int FEWEST = 12;
  private static final double LEVEL = 0.01;
  private static final double HOUR_MICROS = 3600e6;

  /** Half of the change that is to be found soonest, in deviations. */
  private static final double REFERENCE = 0.5;

  /** The first quarter tells the level. */
  private static final int BASE_SHARE = 4;

  /** The base's own uncertainty is allowed for with so many deviations. */
  private static final double ALLOWED = 2;

  private static final double LEAST_RUN = 10;
  private static final double MOST_RUN = 1e9;

  private final TrendSeries series;
  private final TrendBlocks blocked;
  private final double[] own;

  /** Blocks that have a value, and the value. */
  private final int[] at;

  private final double[] values;

  CourseFinder(TrendSeries series, TrendBlocks blocked, double[] own) {
    this.series = series;
    this.blocked = blocked;
    this.own = own;
    int[] blocks = new int[own.length];
    int n = 0;
    for (int b = 0; b < own.length; b++) {
      if (!Double.isNaN(own[b])) {
        blocks[n++] = b;
      }
    }
    at = Arrays.copyOf(blocks, n);
    values = Arrays.stream(at).mapToDouble(b -> this.own[b]).toArray();
  }

  /** What share of its resistance it moved by, in a step or a slope; 0 where that is by chance. */
  double moved() {
    Found found = values.length < FEWEST ? Found.tooFew() : course();
    return found.course == Course.STEP || found.course == Course.SLOPE
        ? Math.abs(found.change.value() / TrendFit.mean(values))
        : 0;
  }

  ConductorTrend trend(double falseAlarmMicros) {
    int least = -1;
    int greatest = -1;
    long readings = 0;
    double[] ohms = series.ohms();
    for (int i = 0; i < ohms.length; i++) {
      if (!Double.isNaN(ohms[i])) {
        readings++;
        least = least < 0 || ohms[i] < ohms[least] ? i : least;
        greatest = greatest < 0 || ohms[i] > ohms[greatest] ? i : greatest;
      }
    }
    double mean = Arrays.stream(ohms).filter(v -> !Double.isNaN(v)).average().orElse(Double.NaN);
    Found found = values.length < FEWEST ? Found.tooFew() : course();
    return new ConductorTrend(
        series.port(),
        readings,
        ohms.length - readings,
        Quantity.ohms(mean, series.readingOhms()),
        least < 0 ? Double.NaN : ohms[least],
        least < 0 ? -1 : series.micros()[least],
        greatest < 0 ? Double.NaN : ohms[greatest],
        greatest < 0 ? -1 : series.micros()[greatest],
        found.course,
        found.chance,
        found.micros,
        found.change,
        found.perHour,
        values.length < FEWEST ? Optional.empty() : alarm(falseAlarmMicros));
  }

  private record Found(
      Course course, double chance, long micros, Quantity change, Quantity perHour) {
    static Found tooFew() {
      Quantity nothing = Quantity.ohms(Double.NaN, 0);
      return new Found(Course.TOO_FEW, 1, -1, nothing, nothing);
    }
  }

  /** The step or the slope that leaves less, where either is surely there. */
  private Found course() {
    SimpleRegression line = new SimpleRegression();
    for (int i = 0; i < at.length; i++) {
      line.addData(blocked.midMicros(at[i]) / HOUR_MICROS, values[i]);
    }
    ChangePoint ranks = ChangePoint.pettitt(values);
    ChangePoint step = ChangePoint.leastSquares(values);
    Quantity perHour = Quantity.ohms(line.getSlope(), Math.max(1e-15, line.getSlopeStdErr()));
    double t = Math.abs(perHour.value()) / perHour.u();
    double slopeChance = 2 * new TDistribution(values.length - 2).cumulativeProbability(-t);
    double stepChance = ranks.chance();
    double chance = Math.min(1, 2 * Math.min(slopeChance, stepChance));
    long micros = blocked.midMicros(at[step.before()]) - blocked.blockMicros() / 2;
    if (chance >= LEVEL) {
      return new Found(Course.STEADY, chance, micros, levels(step), perHour);
    }
    if (leftByStep(step) < line.getSumSquaredErrors()) {
      return new Found(Course.STEP, chance, micros, levels(step), perHour);
    }
    double hours = (blocked.midMicros(at[at.length - 1]) - blocked.midMicros(at[0])) / HOUR_MICROS;
    Quantity change = Quantity.ohms(perHour.value() * hours, perHour.u() * hours);
    return new Found(Course.SLOPE, chance, micros, change, perHour);
  }

  private Quantity levels(ChangePoint step) {
    double u = 0;
    for (double[] part :
        new double[][] {
          Arrays.copyOf(values, step.before()),
          Arrays.copyOfRange(values, step.before(), values.length)
        }) {
      u = Math.hypot(u, part.length < 2 ? series.readingOhms() : TrendFit.meanDeviation(part));
    }
    return Quantity.ohms(step.meanAfter() - step.meanBefore(), u);
  }

  private double leftByStep(ChangePoint step) {
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      double off = values[i] - (i < step.before() ? step.meanBefore() : step.meanAfter());
      sum += off * off;
    }
    return sum;
  }

  private Optional<ConductorTrend.Alarm> alarm(double falseAlarmMicros) {
    double[] base = Arrays.copyOf(values, Math.max(FEWEST / 2, values.length / BASE_SHARE));
    double wide = 1 + ALLOWED / Math.sqrt(2.0 * base.length);
    double deviation = TrendFit.deviation(base) * wide;
    if (!(deviation > 0)) {
      return Optional.empty();
    }
    double run = falseAlarmMicros / blocked.blockMicros();
    double h =
        CusumDesign.forRunLength(REFERENCE, Math.max(LEAST_RUN, Math.min(MOST_RUN, run))).h();
    double k = REFERENCE + ALLOWED / Math.sqrt(base.length);
    Cusum cusum = new Cusum(TrendFit.mean(base), deviation, k, h, 0);
    for (int i = 0; i < values.length; i++) {
      Cusum.Alarm side = cusum.add(values[i]);
      if (side != Cusum.Alarm.NONE) {
        int begun = (int) Math.max(0, i + 1 - cusum.samplesSince(side));
        return Optional.of(
            new ConductorTrend.Alarm(
                side,
                blocked.midMicros(at[i]) + blocked.blockMicros() / 2,
                blocked.midMicros(at[begun]) - blocked.blockMicros() / 2));
      }
    }
    return Optional.empty();
  }
}
