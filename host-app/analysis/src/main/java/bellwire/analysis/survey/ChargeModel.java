package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Quantity;
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
 * The charging transients' least-squares problem. Residuals over the noise, and priors as further
 * residuals. Unknowns: ln ω relative to the mains chosen and the start over its prior's u; for each
 * transient ln τ, final voltage, cosine and sine of its hum. Theory (25).
 */
final class ChargeModel implements MultivariateJacobianFunction {
  static final double U_START_SECONDS = 10e-6;

  private static final double WINDOW_SECONDS = 2.5e-3;

  /** Delay of one modulator period, and 40 periods that a conversion takes beside its window. */
  private static final double START_SECONDS = 41 / 256e3;

  static final ChargeCurve NOMINAL = new ChargeCurve(START_SECONDS, WINDOW_SECONDS);

  /** The converter's oscillator, 1.5 %, rectangular; the mains' own error is far below. */
  private static final double U_LOG_OMEGA = 0.009;

  /** Of ln τ: regular where nothing shows of it. */
  private static final double U_LOG_TAU = 3;

  private static final int STEPS = 60;
  private static final double TOLERANCE = 1e-7;
  private static final int COMMON = 2;
  private static final int EACH = 4;

  /** One port's conversions, and where its fit begins and ends. */
  static final class Transient {
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

  /**
   * What is known of the parameters that all transients share.
   *
   * @param logOmega ln of the frequency over that of the mains
   * @param start of the windows over the nominal one, in units of its prior's u
   */
  record Common(double logOmega, double uLogOmega, double start, double uStart) {
    /** Before anything was measured. */
    static final Common NOTHING = new Common(0, U_LOG_OMEGA, 0, 1);
  }

  /** Where the fit of some transients ended, and how sure it is. */
  static final class Solved {
    final List<Transient> some;
    final double[] point;
    final double[] scatter;
    final @Nullable DMatrixRMaj covariance;

    Solved(List<Transient> some, ChargeModel model, double[] point) {
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
          ? Common.NOTHING
          : new Common(point[0], Math.max(u(0), 1e-9), point[1], Math.max(u(1), 1e-9));
    }
  }

  final int rows;
  private final List<Transient> some;
  private final Common prior;
  private final double[] start;
  private final double omega;
  private final double noiseVolts;

  private ChargeModel(
      List<Transient> some, Common prior, double[] start, double omega, double noiseVolts) {
    this.some = some;
    this.omega = omega;
    this.noiseVolts = noiseVolts;
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
      int column = column(i);
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

  /** Where a transient's unknowns begin. */
  static int column(int i) {
    return COMMON + EACH * i;
  }

  /**
   * Fits some transients together; as they were begun where no fit is found.
   *
   * @param omega of the mains, rad/s
   * @param noiseVolts of one conversion
   */
  static Solved solve(List<Transient> some, Common prior, double omega, double noiseVolts) {
    double[] start = new double[COMMON + EACH * some.size()];
    start[0] = prior.logOmega;
    start[1] = prior.start;
    for (int i = 0; i < some.size(); i++) {
      Transient t = some.get(i);
      start[column(i)] = Math.log(t.tau);
      System.arraycopy(t.linear, 0, start, column(i) + 1, 3);
    }
    ChargeModel model = new ChargeModel(some, prior, start, omega, noiseVolts);
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
}
