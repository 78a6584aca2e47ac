package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.decomposition.CholeskyDecomposition_F64;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Fits a group's parameters to its readings and to the distributions they come from, and weighs the
 * supposition by Laplace's approximation of its evidence. Theory (32) and (33).
 *
 * @param point the parameters
 * @param covariance of the parameters
 * @param chiSquared of the readings alone
 * @param logEvidence natural logarithm, up to a constant that all suppositions about the same
 *     readings share
 */
record GroupFit(double[] point, DMatrixRMaj covariance, double chiSquared, double logEvidence) {
  private static final int STEPS = 60;

  /** Of the first approach: nearly every reading's own size. */
  private static final double COARSE_SHARE = 0.03;

  private static final double COARSE_OHMS = 0.02;

  /**
   * First with wide readings, to come near, then as they are. Null where the circuit can't be
   * weighed.
   */
  static @Nullable GroupFit of(GroupModel model, List<Ratio> ratios) {
    double[] near = new Descent(model, ratios, COARSE_SHARE).from(model.parameters().start());
    return weighed(model, ratios, new Descent(model, ratios, 0).from(near));
  }

  /** One minimisation; keeps the best point it has seen, should the steps not suffice. */
  private static final class Descent {
    private final GroupModel model;
    private final List<Ratio> ratios;
    private final double[] u;
    private double[] best = {};
    private double least = Double.POSITIVE_INFINITY;

    Descent(GroupModel model, List<Ratio> ratios, double share) {
      this.model = model;
      this.ratios = ratios;
      u = new double[ratios.size()];
      for (int k = 0; k < u.length; k++) {
        Ratio ratio = ratios.get(k);
        double wide = share == 0 ? 0 : COARSE_OHMS + share * Math.abs(ratio.ohms());
        u[k] = Math.hypot(ratio.u(), wide);
      }
    }

    double[] from(double[] start) {
      best = start;
      int rows = u.length + start.length;
      try {
        return new LevenbergMarquardtOptimizer()
            .withCostRelativeTolerance(1e-8)
            .withParameterRelativeTolerance(1e-8)
            .optimize(
                new LeastSquaresBuilder()
                    .model(this::residuals)
                    .target(new double[rows])
                    .start(start)
                    .maxEvaluations(STEPS)
                    .maxIterations(STEPS)
                    .build())
            .getPoint()
            .toArray();
      } catch (MathIllegalStateException e) {
        return best;
      }
    }

    private Pair<RealVector, RealMatrix> residuals(RealVector at) {
      double[] point = at.toArray();
      Parameters parameters = model.parameters();
      int n = point.length;
      int m = u.length;
      GroupModel.Predicted predicted = model.at(point, true);
      double[] value = new double[m + n];
      double[][] jacobian = new double[m + n][n];
      double cost = 0;
      for (int k = 0; k < m; k++) {
        value[k] = (predicted.values()[k] - ratios.get(k).ohms()) / u[k];
        for (int i = 0; i < n; i++) {
          jacobian[k][i] = predicted.slope(k, i) / u[k];
        }
        cost += value[k] * value[k];
      }
      for (int i = 0; i < n; i++) {
        value[m + i] = (point[i] - parameters.mean(i)) / parameters.sigma(i);
        jacobian[m + i][i] = 1 / parameters.sigma(i);
        cost += value[m + i] * value[m + i];
      }
      if (cost < least) {
        least = cost;
        best = point;
      }
      return new Pair<>(
          new ArrayRealVector(value, false), new Array2DRowRealMatrix(jacobian, false));
    }
  }

  private static @Nullable GroupFit weighed(GroupModel model, List<Ratio> ratios, double[] point) {
    Parameters parameters = model.parameters();
    int n = parameters.count();
    GroupModel.Predicted predicted = model.at(point, true);
    DMatrixRMaj hessian = new DMatrixRMaj(n, n);
    double chiSquared = 0;
    for (int k = 0; k < ratios.size(); k++) {
      double u = ratios.get(k).u();
      chiSquared += Math.pow((predicted.values()[k] - ratios.get(k).ohms()) / u, 2);
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          hessian.add(i, j, predicted.slope(k, i) * predicted.slope(k, j) / (u * u));
        }
      }
    }
    double penalty = 0;
    double logSigmas = 0;
    for (int i = 0; i < n; i++) {
      double sigma = parameters.sigma(i);
      hessian.add(i, i, 1 / (sigma * sigma));
      penalty += Math.pow((point[i] - parameters.mean(i)) / sigma, 2);
      logSigmas += Math.log(sigma);
    }
    CholeskyDecomposition_F64<DMatrixRMaj> cholesky = DecompositionFactory_DDRM.chol(n, true);
    if (!cholesky.decompose(hessian.copy())) {
      return null;
    }
    DMatrixRMaj lower = cholesky.getT(null);
    double halfLogDeterminant = 0;
    for (int i = 0; i < n; i++) {
      halfLogDeterminant += Math.log(lower.get(i, i));
    }
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    DMatrixRMaj covariance = new DMatrixRMaj(n, n);
    if (!solver.setA(hessian)) {
      return null;
    }
    solver.invert(covariance);
    for (int i = 0; i < n; i++) {
      if (!(covariance.get(i, i) > 0)) {
        return null; // so far from the readings that rounding is all there is
      }
    }
    double logEvidence = -0.5 * (chiSquared + penalty) - halfLogDeterminant - logSigmas;
    return new GroupFit(point, covariance, chiSquared, logEvidence);
  }

  /** A parameter with its uncertainty from the Hessian. */
  Quantity parameter(int index, String unit) {
    return new Quantity(point[index], Math.sqrt(covariance.get(index, index)), unit);
  }

  /** A parameter that is a natural logarithm, as what it is the logarithm of. */
  Quantity exponential(int index, String unit) {
    double value = Math.exp(point[index]);
    // To first order; a factor of e each way is as wide as it is said to be.
    double u = value * Math.sqrt(Math.min(covariance.get(index, index), 4));
    return new Quantity(value, u, unit);
  }
}
