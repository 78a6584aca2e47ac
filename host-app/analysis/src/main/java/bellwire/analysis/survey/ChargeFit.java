package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Fits all charging transients at once: each has its time constant, its final voltage and its hum;
 * the start of the converter's windows and the mains frequency are common to all. What is no plain
 * transient has no say in those. Theory (26).
 */
final class ChargeFit {
  private static final double WINDOW_SECONDS = 2.5e-3;

  /** Delay of one modulator period, and 40 periods that a conversion takes beside its window. */
  private static final double START_SECONDS = 41 / 256e3;

  private static final double U_START_SECONDS = 10e-6;

  /** The converter's oscillator, 1.5 %, rectangular; the mains' own error is far below. */
  private static final double U_LOG_OMEGA = 0.009;

  private static final double[] MAINS_HERTZ = {50, 60};

  /** Of ln τ: regular where nothing shows of it. */
  private static final double U_LOG_TAU = 3;

  /** A wider one is no reading of τ but a bound. */
  private static final double TELLING = 0.3;

  private static final double LEAST_TAU = 3e-6;
  private static final double MOST_TAU = 0.1;
  private static final int GRID = 60;
  private static final int STEPS = 60;

  /** Beyond so many of its u a transient is not one exponential, or starts at another time. */
  private static final double DISTURBED = 4;

  private static final double START_SLACK_SECONDS = 0.5e-6;

  /** A start known worse than this share of its prior's u says nothing of the others'. */
  private static final double TELLING_START = 0.3;

  /** Of the converter, rectangular. */
  private static final double OFFSET_VOLTS = 5e-6;

  private static final double TOLERANCE = 1e-7;
  private static final int COMMON = 2;
  private static final int EACH = 4;

  /** A bound above this says nothing. */
  private static final double MOST_BOUND_FARADS = 150e-12;

  private final double sourceAmps;
  private final double noiseVolts;
  private final double offsetVolts;
  private final double uLogSource;
  private final List<Transient> transients = new ArrayList<>();
  private double omega = 2 * Math.PI * MAINS_HERTZ[0];

  private static final class Transient {
    final int key;
    final int[] windows;
    final double[] volts;
    double tau;
    double[] linear = new double[3];
    @Nullable Quantity farads;

    Transient(int key, int[] windows, double[] volts) {
      this.key = key;
      this.windows = windows;
      this.volts = volts;
    }
  }

  ChargeFit(BoardModel board, int gain) {
    sourceAmps = board.excitationVolts() / (board.checkHighOhms() + board.limiterOhms());
    noiseVolts = board.noise().rms(gain, Pace.WAVE);
    offsetVolts = OFFSET_VOLTS / Math.sqrt(3);
    // The open switches' leakage adds to the source's current, alike for all but for one's own.
    uLogSource = board.leakageAmps() / Math.sqrt(3) / sourceAmps;
  }

  /**
   * @param windows number of each conversion after the switching, the first is 0
   * @param volts one for each
   */
  void add(int key, int[] windows, double[] volts) {
    transients.add(new Transient(key, windows, volts));
  }

  @Nullable Quantity farads(int key) {
    for (Transient t : transients) {
      if (t.key == key) {
        return t.farads;
      }
    }
    return null;
  }

  void solve() {
    if (transients.isEmpty()) {
      return;
    }
    begin();
    List<Solved> alone = transients.stream().map(t -> solve(List.of(t), NOTHING_KNOWN)).toList();
    double start = commonStart(alone);
    List<Transient> simple = new ArrayList<>();
    for (int i = 0; i < transients.size(); i++) {
      Solved solved = alone.get(i);
      double apart = Math.abs(solved.point[1] - start);
      boolean one =
          solved.scatter[0] <= DISTURBED
              && apart <= DISTURBED * (solved.uStart() + START_SLACK_SECONDS / U_START_SECONDS);
      if (one) {
        simple.add(transients.get(i));
      }
    }
    Common common = NOTHING_KNOWN;
    if (!simple.isEmpty()) {
      Solved together = solve(simple, NOTHING_KNOWN);
      read(together);
      common = together.common();
    }
    for (Transient t : transients) {
      if (!simple.contains(t)) {
        read(solve(List.of(t), common));
      }
    }
  }

  /**
   * The middle of what each transient says by itself. Where something hangs on a conductor behind a
   * resistance, its charge comes in two parts, which pass for a late start.
   */
  private static double commonStart(List<Solved> alone) {
    double[] starts =
        alone.stream()
            .filter(s -> s.uStart() < TELLING_START)
            .mapToDouble(s -> s.point[1])
            .sorted()
            .toArray();
    return starts.length == 0 ? 0 : starts[starts.length / 2];
  }

  /** Fits some transients together; as they were begun where no fit is found. */
  private Solved solve(List<Transient> some, Common prior) {
    double[] start = new double[COMMON + EACH * some.size()];
    start[0] = prior.logOmega;
    start[1] = prior.start;
    for (int i = 0; i < some.size(); i++) {
      Transient t = some.get(i);
      start[COMMON + EACH * i] = Math.log(t.tau);
      System.arraycopy(t.linear, 0, start, COMMON + EACH * i + 1, 3);
    }
    Model model = new Model(some, prior, start);
    try {
      double[] point =
          new LevenbergMarquardtOptimizer()
              .withCostRelativeTolerance(TOLERANCE)
              .withParameterRelativeTolerance(TOLERANCE)
              .optimize(
                  new LeastSquaresBuilder()
                      .model(model)
                      .target(new double[model.rows])
                      .start(start)
                      .maxEvaluations(STEPS)
                      .maxIterations(STEPS)
                      .build())
              .getPoint()
              .toArray();
      return new Solved(some, model, point);
    } catch (MathIllegalStateException e) {
      return new Solved(some, model, start);
    }
  }

  /**
   * What is known of the parameters that all transients share.
   *
   * @param logOmega ln of the frequency over that of the mains
   * @param start of the windows over the nominal one, in units of its prior's u
   */
  private record Common(double logOmega, double uLogOmega, double start, double uStart) {}

  private static final Common NOTHING_KNOWN = new Common(0, U_LOG_OMEGA, 0, 1);

  /** Where the fit of some transients ended, and how sure it is. */
  private static final class Solved {
    final List<Transient> some;
    final double[] point;
    final double[] scatter;
    final @Nullable DMatrixRMaj covariance;

    Solved(List<Transient> some, Model model, double[] point) {
      this.some = some;
      this.point = point;
      Pair<RealVector, RealMatrix> at = model.value(new ArrayRealVector(point, false));
      DMatrixRMaj normal = new DMatrixRMaj(point.length, point.length);
      CommonOps_DDRM.multInner(new DMatrixRMaj(at.getSecond().getData()), normal);
      covariance = CommonOps_DDRM.invert(normal) ? normal : null;
      scatter = new double[some.size()];
      int row = COMMON;
      for (int i = 0; i < scatter.length; i++) {
        int n = some.get(i).volts.length;
        double squares = 0;
        for (int k = 0; k < n; k++) {
          double r = at.getFirst().getEntry(row + 1 + k);
          squares += r * r;
        }
        row += n + 1;
        scatter[i] = Math.max(1, Math.sqrt(squares / Math.max(1, n - EACH)));
      }
    }

    double u(int parameter) {
      return covariance == null
          ? Double.POSITIVE_INFINITY
          : Math.sqrt(Math.max(0, covariance.get(parameter, parameter)));
    }

    double uStart() {
      return u(1);
    }

    Common common() {
      return covariance == null
          ? NOTHING_KNOWN
          : new Common(point[0], Math.max(u(0), 1e-9), point[1], Math.max(u(1), 1e-9));
    }
  }

  /** The mains frequency that fits better, and for it each τ on a grid. */
  private void begin() {
    double least = Double.POSITIVE_INFINITY;
    for (double hertz : MAINS_HERTZ) {
      double cost = 0;
      for (Transient t : transients) {
        cost += scan(t, 2 * Math.PI * hertz);
      }
      if (cost < least) {
        least = cost;
        omega = 2 * Math.PI * hertz;
      }
    }
    transients.forEach(t -> scan(t, omega));
  }

  /** Sets the best τ of a grid with the voltages that go with it; its sum of squares. */
  private double scan(Transient t, double omega) {
    ChargeCurve curve = new ChargeCurve(START_SECONDS, WINDOW_SECONDS);
    double least = Double.POSITIVE_INFINITY;
    for (int g = 0; g <= GRID; g++) {
      double tau = LEAST_TAU * Math.pow(MOST_TAU / LEAST_TAU, (double) g / GRID);
      DMatrixRMaj basis = new DMatrixRMaj(t.volts.length, 3);
      for (int k = 0; k < t.volts.length; k++) {
        double lacking = curve.lacking(t.windows[k], tau);
        basis.set(k, 0, 1 - lacking);
        basis.set(k, 1, curve.cosine(t.windows[k], omega) - lacking);
        basis.set(k, 2, curve.sine(t.windows[k], omega));
      }
      DMatrixRMaj volts = new DMatrixRMaj(t.volts.length, 1, true, t.volts);
      DMatrixRMaj found = new DMatrixRMaj(3, 1);
      if (!CommonOps_DDRM.solve(basis, volts, found)) {
        continue;
      }
      DMatrixRMaj left = volts.copy();
      CommonOps_DDRM.multAdd(-1, basis, found, left);
      double squares = 0;
      for (double r : left.getData()) {
        squares += r * r;
      }
      if (squares < least) {
        least = squares;
        t.tau = tau;
        t.linear = found.getData().clone();
      }
    }
    return least;
  }

  /**
   * Residuals over the noise, and priors as further residuals. Unknowns: ln ω relative to the mains
   * chosen and the start over its prior's u; for each transient ln τ, final voltage, cosine and
   * sine of its hum.
   */
  private final class Model implements MultivariateJacobianFunction {
    final int rows;
    private final List<Transient> some;
    private final Common prior;
    private final double[] start;

    Model(List<Transient> some, Common prior, double[] start) {
      this.some = some;
      this.prior = prior;
      this.start = start;
      rows = COMMON + some.stream().mapToInt(t -> t.volts.length + 1).sum();
    }

    @Override
    public Pair<RealVector, RealMatrix> value(RealVector at) {
      double[] point = at.toArray();
      double[] values = new double[rows];
      double[][] jacobian = new double[rows][point.length];
      values[0] = (point[0] - prior.logOmega) / prior.uLogOmega;
      jacobian[0][0] = 1 / prior.uLogOmega;
      values[1] = (point[1] - prior.start) / prior.uStart;
      jacobian[1][1] = 1 / prior.uStart;
      int row = COMMON;
      for (int i = 0; i < some.size(); i++) {
        int column = COMMON + EACH * i;
        values[row] = (point[column] - start[column]) / U_LOG_TAU;
        jacobian[row][column] = 1 / U_LOG_TAU;
        fill(some.get(i), point, column, row + 1, values, jacobian);
        row += some.get(i).volts.length + 1;
      }
      return new Pair<>(
          new ArrayRealVector(values, false), new Array2DRowRealMatrix(jacobian, false));
    }

    private void fill(
        Transient t, double[] point, int column, int row, double[] values, double[][] jacobian) {
      double w = omega * Math.exp(point[0]);
      double startSeconds = START_SECONDS + point[1] * U_START_SECONDS;
      ChargeCurve curve = new ChargeCurve(startSeconds, WINDOW_SECONDS);
      double tau = Math.exp(Math.max(-20, Math.min(0, point[column])));
      double full = point[column + 1];
      double hc = point[column + 2];
      double hs = point[column + 3];
      for (int k = 0; k < t.volts.length; k++) {
        int window = t.windows[k];
        double lacking = curve.lacking(window, tau);
        double cosine = curve.cosine(window, w);
        double sine = curve.sine(window, w);
        double[] byStart = curve.toneByStart(window, w);
        double[] byOmega = curve.toneByLogOmega(window, w);
        values[row + k] =
            (full * (1 - lacking) + hc * (cosine - lacking) + hs * sine - t.volts[k]) / noiseVolts;
        double[] slopes = jacobian[row + k];
        slopes[0] = (hc * byOmega[0] + hs * byOmega[1]) / noiseVolts;
        slopes[1] =
            U_START_SECONDS
                * (hc * byStart[0]
                    + hs * byStart[1]
                    - (full + hc) * curve.lackingByStart(window, tau))
                / noiseVolts;
        slopes[column] = -(full + hc) * curve.lackingByLogTau(window, tau) / noiseVolts;
        slopes[column + 1] = (1 - lacking) / noiseVolts;
        slopes[column + 2] = (cosine - lacking) / noiseVolts;
        slopes[column + 3] = sine / noiseVolts;
      }
    }
  }

  private void read(Solved solved) {
    DMatrixRMaj covariance = solved.covariance;
    if (covariance == null) {
      return;
    }
    for (int i = 0; i < solved.some.size(); i++) {
      Transient t = solved.some.get(i);
      t.farads = farads(solved.point, COMMON + EACH * i, covariance, solved.scatter[i]);
    }
  }

  /** C = τ I/V, the initial slope: what leaks changes τ and V alike. Theory (26). */
  private @Nullable Quantity farads(
      double[] point, int column, DMatrixRMaj covariance, double scatter) {
    double tau = Math.exp(point[column]);
    double full = point[column + 1];
    double uLogTau = scatter * Math.sqrt(Math.max(0, covariance.get(column, column)));
    double uLogFull =
        Math.hypot(
                scatter * Math.sqrt(Math.max(0, covariance.get(column + 1, column + 1))),
                offsetVolts)
            / Math.abs(full);
    double both = -scatter * scatter * 2 * covariance.get(column, column + 1) / full;
    if (!(full > 0) || uLogFull > TELLING) {
      return null;
    }
    double farads = tau * sourceAmps / full;
    if (uLogTau < TELLING) {
      double relative = Math.sqrt(Math.max(0, uLogTau * uLogTau + uLogFull * uLogFull + both));
      relative = Math.hypot(relative, uLogSource);
      return new Quantity(farads, farads * relative, "F");
    }
    double bound = bound(full, scatter) * sourceAmps / full;
    return bound > MOST_BOUND_FARADS ? null : new Quantity(bound / 2, bound / Math.sqrt(12), "F");
  }

  /** The τ of which the first window would still show three times its noise. */
  private double bound(double full, double scatter) {
    ChargeCurve curve = new ChargeCurve(START_SECONDS, WINDOW_SECONDS);
    double tau = LEAST_TAU;
    while (tau < MOST_TAU && full * curve.lacking(0, tau) < 3 * scatter * noiseVolts) {
      tau *= 1.05;
    }
    return tau;
  }
}
