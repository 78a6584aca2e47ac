package bellwire.analysis.fault;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.CholeskyDecomposition_F64;

/** What turns correlated residuals into independent ones of unit variance. */
final class Whitening {
  private Whitening() {}

  /**
   * The inverse of the lower Cholesky factor.
   *
   * @param covariance n × n, positive definite; replaced
   */
  static void replaceByInverseFactor(DMatrixRMaj covariance) {
    CholeskyDecomposition_F64<DMatrixRMaj> cholesky =
        DecompositionFactory_DDRM.chol(covariance.numRows, true);
    if (!cholesky.decompose(covariance.copy())) {
      throw new IllegalArgumentException("no covariance: n=" + covariance.numRows);
    }
    cholesky.getT(covariance);
    if (!CommonOps_DDRM.invert(covariance)) {
      throw new IllegalArgumentException("no covariance: n=" + covariance.numRows);
    }
  }
}
