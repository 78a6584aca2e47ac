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
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Fits all charging transients at once: each has its time constant, its final voltage and its hum;
 * the start of the converter's windows and the mains frequency are common to all. Theory (26).
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
  private static final int COMMON = 2;
  private static final int EACH = 4;

  /** A bound above this says nothing. */
  private static final double MOST_BOUND_FARADS = 150e-12;

  private final double sourceAmps;
  private final double noiseVolts;
  private final double offsetVolts;
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
    offsetVolts = 5e-6 / Math.sqrt(3);
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
    double[] start = new double[COMMON + EACH * transients.size()];
    for (int i = 0; i < transients.size(); i++) {
      Transient t = transients.get(i);
      start[COMMON + EACH * i] = Math.log(t.tau);
      System.arraycopy(t.linear, 0, start, COMMON + EACH * i + 1, 3);
    }
    Model model = new Model(start);
    double[] target = new double[model.rows];
    double[] point;
    try {
      point =
          new LevenbergMarquardtOptimizer()
              .optimize(
                  new LeastSquaresBuilder()
                      .model(model)
                      .target(target)
                      .start(start)
                      .maxEvaluations(STEPS)
                      .maxIterations(STEPS)
                      .build())
              .getPoint()
              .toArray();
    } catch (MathIllegalStateException e) {
      return; // nothing is known of any of them
    }
    read(model, point);
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
    private final double[] start;

    Model(double[] start) {
      this.start = start;
      rows = COMMON + transients.stream().mapToInt(t -> t.volts.length + 1).sum();
    }

    @Override
    public Pair<org.hipparchus.linear.RealVector, org.hipparchus.linear.RealMatrix> value(
        org.hipparchus.linear.RealVector at) {
      double[] point = at.toArray();
      double[] values = new double[rows];
      double[][] jacobian = new double[rows][point.length];
      values[0] = point[0] / U_LOG_OMEGA;
      jacobian[0][0] = 1 / U_LOG_OMEGA;
      values[1] = point[1];
      jacobian[1][1] = 1;
      int row = COMMON;
      for (int i = 0; i < transients.size(); i++) {
        int column = COMMON + EACH * i;
        values[row] = (point[column] - start[column]) / U_LOG_TAU;
        jacobian[row][column] = 1 / U_LOG_TAU;
        fill(transients.get(i), point, column, row + 1, values, jacobian);
        row += transients.get(i).volts.length + 1;
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

  private void read(Model model, double[] point) {
    Pair<org.hipparchus.linear.RealVector, org.hipparchus.linear.RealMatrix> at =
        model.value(new ArrayRealVector(point, false));
    double[][] jacobian = at.getSecond().getData();
    DMatrixRMaj normal = new DMatrixRMaj(point.length, point.length);
    CommonOps_DDRM.multInner(new DMatrixRMaj(jacobian), normal);
    if (!CommonOps_DDRM.invert(normal)) {
      return;
    }
    int row = COMMON;
    for (int i = 0; i < transients.size(); i++) {
      Transient t = transients.get(i);
      double squares = 0;
      for (int k = 0; k < t.volts.length; k++) {
        double r = at.getFirst().getEntry(row + 1 + k);
        squares += r * r;
      }
      row += t.volts.length + 1;
      double scatter = Math.max(1, Math.sqrt(squares / Math.max(1, t.volts.length - EACH)));
      t.farads = farads(t, point, COMMON + EACH * i, normal, scatter);
    }
  }

  /** C = τ I/V, the initial slope: what leaks changes τ and V alike. Theory (26). */
  private @Nullable Quantity farads(
      Transient t, double[] point, int column, DMatrixRMaj covariance, double scatter) {
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
