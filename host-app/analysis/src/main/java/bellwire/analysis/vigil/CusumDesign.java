package bellwire.analysis.vigil;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Average run lengths of a CUSUM of independent normal samples, as the solution of Page's integral
 * equation at Gauss-Legendre nodes (Nyström). Theory (99) to (101).
 *
 * @param k reference value in deviations
 * @param h alarm level in deviations
 */
public record CusumDesign(double k, double h) {
  private static final NormalDistribution NORMAL = new NormalDistribution();
  private static final double MOST_H = 100;
  private static final double LEAST_H = 1e-3;

  /** Longest run length that can be asked for: the equation is then singular to within 1e-9. */
  private static final double MOST_RUN = 1e9;

  /** Keeps the rules it has made; by steps of nodes they stay few. */
  private static final GaussIntegratorFactory RULES = new GaussIntegratorFactory();

  private static final int NODES = 32;
  private static final double H_PER_STEP = 8;
  private static final int NODES_PER_STEP = 16;
  private static final int STEPS = 200;
  private static final double H_ACCURACY = 1e-8;

  public CusumDesign {
    if (!(k >= 0 && Double.isFinite(k)) || !(h >= LEAST_H && h <= MOST_H)) {
      throw new IllegalArgumentException("k=" + k + " h=" + h);
    }
  }

  /**
   * The design whose two-sided run length without a change is as wanted; longer, where even the
   * least level has more.
   *
   * @param k above 0, in deviations; below 0.1 not every run length can be had
   * @param samples mean run between false alarms, 10 to 1e9
   */
  public static CusumDesign forRunLength(double k, double samples) {
    if (!(k > 0) || !(samples >= 10 && samples <= MOST_RUN)) {
      throw new IllegalArgumentException("k=" + k + " samples=" + samples);
    }
    double wanted = Math.log(samples);
    if (logRun(k, LEAST_H) >= wanted) {
      return new CusumDesign(k, LEAST_H);
    }
    double top = 1;
    while (logRun(k, top) < wanted) {
      if (top == MOST_H) {
        throw new IllegalArgumentException(
            "h above " + MOST_H + ": k=" + k + " samples=" + samples);
      }
      top = Math.min(2 * top, MOST_H);
    }
    double h =
        new BrentSolver(H_ACCURACY).solve(STEPS, each -> logRun(k, each) - wanted, LEAST_H, top);
    return new CusumDesign(k, h);
  }

  private static double logRun(double k, double h) {
    return Math.log(new CusumDesign(k, h).twoSided(0, 0));
  }

  /**
   * Samples until the upper sum alarms, on average.
   *
   * @param mean of the samples, in deviations from the target
   * @param headstart 0 to h
   */
  public double oneSided(double mean, double headstart) {
    checkStart(mean, headstart, h);
    return solve(mean, headstart)[1];
  }

  /**
   * Samples until either sum alarms, on average. Exact for headstarts up to h/2: then one sum is
   * back at 0 when the other alarms.
   */
  public double twoSided(double mean, double headstart) {
    checkStart(mean, headstart, h / 2);
    double[] up = solve(mean, headstart);
    double[] down = solve(-mean, headstart);
    // The same as (L+ M- + L- M+ - M+ M-)/(M+ + M-), without overflow where one side never alarms.
    double share = 1 / (1 + up[0] / down[0]);
    return up[1] * share + (down[1] - down[0]) * (1 - share);
  }

  private void checkStart(double mean, double headstart, double most) {
    if (!Double.isFinite(mean) || !(headstart >= 0 && headstart <= most)) {
      throw new IllegalArgumentException("h=" + h + " mean=" + mean + " headstart=" + headstart);
    }
  }

  /** Run lengths from 0 and from the headstart. */
  private double[] solve(double mean, double headstart) {
    int nodes = NODES + NODES_PER_STEP * (int) (h / H_PER_STEP);
    GaussIntegrator rule = RULES.legendre(nodes, 0, h);
    int n = rule.getNumberOfPoints();
    // Row and column 0 stand for the sum at 0, the others for the nodes.
    DMatrixRMaj a = new DMatrixRMaj(n + 1, n + 1);
    DMatrixRMaj ones = new DMatrixRMaj(n + 1, 1);
    for (int i = 0; i <= n; i++) {
      double from = i == 0 ? 0 : rule.getPoint(i - 1);
      a.set(i, 0, -NORMAL.cumulativeProbability(k - from - mean));
      for (int j = 1; j <= n; j++) {
        double step = rule.getPoint(j - 1) - from + k - mean;
        a.set(i, j, -rule.getWeight(j - 1) * NORMAL.density(step));
      }
      a.add(i, i, 1);
      ones.set(i, 0, 1);
    }
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.lu(n + 1);
    DMatrixRMaj lengths = new DMatrixRMaj(n + 1, 1);
    if (!solver.setA(a)) {
      throw new ArithmeticException(
          "run length without bound: k=" + k + " h=" + h + " mean=" + mean);
    }
    solver.solve(ones, lengths);
    double start = 1 + lengths.get(0) * NORMAL.cumulativeProbability(k - headstart - mean);
    for (int j = 1; j <= n; j++) {
      double step = rule.getPoint(j - 1) - headstart + k - mean;
      start += rule.getWeight(j - 1) * NORMAL.density(step) * lengths.get(j);
    }
    return new double[] {lengths.get(0), start};
  }
}
