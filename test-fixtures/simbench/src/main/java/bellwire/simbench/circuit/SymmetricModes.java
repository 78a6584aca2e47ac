package bellwire.simbench.circuit;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * Modes of a circuit of conductances and capacitances: G·φ = λ·C·φ with Φᵀ·C·Φ = 1, slowest first.
 * All λ are positive, as G and C are symmetric and positive definite.
 */
final class SymmetricModes {
  private final double[][] l;
  private final double[][] q;
  final double[] lambda;
  final double[][] phi;

  /**
   * @param g conductance matrix, n × n, row by row; is used up
   * @param cholesky lower factor of the capacitance matrix, n × n; kept
   */
  SymmetricModes(double[][] g, double[][] cholesky) {
    int n = g.length;
    l = cholesky;
    DMatrixRMaj a = new DMatrixRMaj(congruence(g));
    EigenDecomposition_F64<DMatrixRMaj> eig = DecompositionFactory_DDRM.eig(n, true, true);
    if (!eig.decompose(a)) {
      throw new IllegalStateException("eigenvalues did not converge: n=" + n);
    }
    Integer[] byDecay = new Integer[n];
    for (int k = 0; k < n; k++) {
      byDecay[k] = k;
    }
    Arrays.sort(
        byDecay,
        (x, y) -> Double.compare(eig.getEigenvalue(x).getReal(), eig.getEigenvalue(y).getReal()));
    lambda = new double[n];
    q = new double[n][n];
    for (int k = 0; k < n; k++) {
      // Rounding may leave the slowest mode of a floating group at or below zero.
      lambda[k] = Math.max(eig.getEigenvalue(byDecay[k]).getReal(), 1e-9);
      DMatrixRMaj vector = eig.getEigenVector(byDecay[k]);
      for (int i = 0; i < n; i++) {
        q[i][k] = vector.data[i];
      }
    }
    phi = backSubstituted(q);
  }

  /** Amplitudes of the modes that make up a deviation from the forced state: Φᵀ·C·d = Qᵀ·Lᵀ·d. */
  double[] amplitudes(double[] deviation) {
    int n = lambda.length;
    double[] y = new double[n];
    for (int j = 0; j < n; j++) {
      for (int i = j; i < n; i++) {
        y[j] += l[i][j] * deviation[i];
      }
    }
    double[] z = new double[n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        z[k] += q[i][k] * y[i];
      }
    }
    return z;
  }

  /**
   * How much of each mode each observed node sees, observed × n.
   *
   * @param volts scratch, by node number
   */
  double[][] seen(
      ConductanceGraph graph,
      int observedMark,
      int staticMark,
      int[] dynamic,
      int[] observed,
      double[] volts) {
    int n = dynamic.length;
    double[][] modes = new double[observed.length][n];
    for (int i = 0; i < n; i++) {
      for (int node : dynamic) {
        volts[node] = 0;
      }
      volts[dynamic[i]] = 1;
      graph.complete(volts, observedMark, staticMark, -1);
      for (int o = 0; o < observed.length; o++) {
        double weight = volts[observed[o]];
        if (weight != 0) {
          for (int k = 0; k < n; k++) {
            modes[o][k] += weight * phi[i][k];
          }
        }
      }
    }
    return modes;
  }

  /** L⁻¹·G·L⁻ᵀ. */
  private double[][] congruence(double[][] g) {
    int n = g.length;
    for (int pass = 0; pass < 2; pass++) {
      // Rows first; the transpose makes the second pass do the columns.
      for (int i = 0; i < n; i++) {
        double[] row = g[i];
        for (int k = 0; k < i; k++) {
          double factor = l[i][k];
          if (factor != 0) {
            double[] above = g[k];
            for (int j = 0; j < n; j++) {
              row[j] -= factor * above[j];
            }
          }
        }
        for (int j = 0; j < n; j++) {
          row[j] /= l[i][i];
        }
      }
      transpose(g);
    }
    return g;
  }

  private static void transpose(double[][] m) {
    for (int i = 0; i < m.length; i++) {
      for (int j = 0; j < i; j++) {
        double keep = m[i][j];
        m[i][j] = m[j][i];
        m[j][i] = keep;
      }
    }
  }

  /** L⁻ᵀ·Q. */
  private double[][] backSubstituted(double[][] right) {
    int n = right.length;
    double[][] x = new double[n][];
    for (int i = n - 1; i >= 0; i--) {
      double[] row = right[i].clone();
      for (int k = i + 1; k < n; k++) {
        double factor = l[k][i];
        if (factor != 0) {
          for (int j = 0; j < n; j++) {
            row[j] -= factor * x[k][j];
          }
        }
      }
      for (int j = 0; j < n; j++) {
        row[j] /= l[i][i];
      }
      x[i] = row;
    }
    return x;
  }
}
