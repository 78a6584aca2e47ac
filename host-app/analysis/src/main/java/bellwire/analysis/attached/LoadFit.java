package bellwire.analysis.attached;

import bellwire.analysis.survey.BoardModel;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleFunction;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.optim.univariate.UnivariatePointValuePair;

/**
 * Weighs the kinds of load against one another by what they would show: least squares for each
 * kind's parameters, evidence by Laplace's method over the stated prior ranges. Theory (43).
 */
final class LoadFit {
  /** Standard uncertainty of a reading: hum in an INSTANT one, and tolerances of the board. */
  private static final double HUM_VOLTS = 13e-3;

  private static final double STEADY_AMPS = 3e-6;
  private static final double SHARE = 0.012;

  /** Cores to try where the iron's losses show, ohm. */
  private static final double[] CORES = {1e9, 1e5, 3e4, 1e4, 3e3, 1e3, 300};

  private static final int GRID = 40;

  /**
   * A kind, with what fits it.
   *
   * @param logEvidence natural logarithm of prior share times evidence
   * @param value henry of a winding, farad of a capacitor, volt of a diode, ohm of a resistance
   * @param turned of a diode: from the second port to the first
   */
  record Candidate(LoadKind kind, double logEvidence, double value, boolean turned) {}

  private final LoadModels models;
  private final double[] row;
  private final double[] sigma;
  private final double ohms;

  LoadFit(BoardModel board, LoadEvidence evidence, boolean soft) {
    models = new LoadModels(board, soft);
    row = evidence.row(models.loopOhms());
    sigma = new double[row.length];
    for (int i = 0; i < row.length; i++) {
      double floor =
          i < LoadLook.RISE_SECONDS.length
              ? HUM_VOLTS / models.loopOhms()
              : i < row.length - 4 ? HUM_VOLTS / models.fallOhms() : STEADY_AMPS;
      sigma[i] = Math.hypot(floor, SHARE * Math.max(Math.abs(row[i]), 0.03 * models.fullAmps()));
    }
    ohms = Math.min(1e8, Math.max(1e-3, evidence.volts() / Math.max(evidence.amps(), 1e-9)));
  }

  double ohms() {
    return ohms;
  }

  /** All kinds, likeliest first. */
  List<Candidate> candidates() {
    List<Candidate> all = new ArrayList<>();
    all.add(winding(LoadKind.COIL, LoadPriors.COIL_OHMS, LoadPriors.COIL_HENRIES));
    all.add(winding(LoadKind.SECONDARY, LoadPriors.SECONDARY_OHMS, LoadPriors.SECONDARY_HENRIES));
    all.add(best(LoadKind.CAPACITOR, LoadPriors.FARADS, models::capacitor));
    all.add(diode(false));
    all.add(diode(true));
    all.add(
        new Candidate(
            LoadKind.RESISTANCE,
            prior(LoadKind.RESISTANCE)
                + LoadPriors.PLAIN_OHMS.logDensity(ohms)
                + logLikelihood(models.resistance(ohms)),
            ohms,
            false));
    double misfit = LoadPriors.UNKNOWN_MISFIT;
    all.add(
        new Candidate(
            LoadKind.UNKNOWN,
            prior(LoadKind.UNKNOWN) - 0.5 * misfit * misfit * row.length,
            Double.NaN,
            false));
    all.sort(Comparator.comparingDouble(Candidate::logEvidence).reversed());
    return all;
  }

  private static double prior(LoadKind kind) {
    return Math.log(LoadPriors.share(kind));
  }

  private double logLikelihood(double[] predicted) {
    double sum = 0;
    for (int i = 0; i < row.length; i++) {
      double z = (row[i] - predicted[i]) / sigma[i];
      sum -= 0.5 * z * z;
    }
    return sum;
  }

  private Candidate winding(LoadKind kind, LoadPriors.Range range, LoadPriors.Range henries) {
    List<Candidate> tried = new ArrayList<>();
    for (double core : CORES) {
      // At rest the core lies across the winding.
      double r = core > 1.1 * ohms ? 1 / (1 / ohms - 1 / core) : Double.NaN;
      if (!Double.isNaN(r)) {
        Candidate fit = best(kind, henries, h -> models.winding(r, h, core));
        // One core more to choose from is worth its share of the range.
        double choice = -Math.log(CORES.length);
        tried.add(
            new Candidate(
                kind, fit.logEvidence() + choice + range.logDensity(r), fit.value(), false));
      }
    }
    return tried.stream().max(Comparator.comparingDouble(Candidate::logEvidence)).orElseThrow();
  }

  private Candidate diode(boolean turned) {
    double forward = (turned ? row[row.length - 1] : row[row.length - 3]) * models.loopOhms();
    double z = (forward - LoadPriors.DIODE_VOLTS) / LoadPriors.DIODE_SIGMA_VOLTS;
    // Against the other kinds' densities of ln x: of one volt times x.
    double density =
        -0.5 * z * z
            - Math.log(Math.sqrt(2 * Math.PI) * LoadPriors.DIODE_SIGMA_VOLTS)
            + Math.log(LoadPriors.DIODE_VOLTS);
    double half = Math.log(0.5);
    return new Candidate(
        LoadKind.DIODE,
        prior(LoadKind.DIODE)
            + half
            + density
            + logLikelihood(models.diode(Math.max(0, forward), turned)),
        forward,
        turned);
  }

  /** The parameter that fits best, and its evidence over a range that is uniform in ln x. */
  private Candidate best(LoadKind kind, LoadPriors.Range range, DoubleFunction<double[]> model) {
    double low = Math.log(range.low()) - 1;
    double high = Math.log(range.high()) + 1;
    double step = (high - low) / GRID;
    double top = low;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= GRID; i++) {
      double value = logLikelihood(model.apply(Math.exp(low + i * step)));
      if (value > most) {
        most = value;
        top = low + i * step;
      }
    }
    UnivariatePointValuePair peak =
        new BrentOptimizer(1e-6, 1e-9)
            .optimize(
                new UnivariateObjectiveFunction(x -> logLikelihood(model.apply(Math.exp(x)))),
                GoalType.MAXIMIZE,
                new SearchInterval(top - step, top + step),
                new MaxEval(200));
    double x = peak.getPoint();
    double h = 1e-3;
    double bend =
        (logLikelihood(model.apply(Math.exp(x + h)))
                + logLikelihood(model.apply(Math.exp(x - h)))
                - 2 * peak.getValue())
            / (h * h);
    double width = 1 / Math.sqrt(Math.max(1, -bend));
    double occam = Math.log(width * Math.sqrt(2 * Math.PI)) + range.logDensity(Math.exp(x));
    return new Candidate(kind, prior(kind) + peak.getValue() + occam, Math.exp(x), false);
  }
}
