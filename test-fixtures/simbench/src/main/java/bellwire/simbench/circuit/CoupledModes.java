package bellwire.simbench.circuit;

import org.ejml.data.Complex_F64;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_ZDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * Eigenvalues and vectors of a real matrix A with J·A symmetric, J = diag(1 … 1, −1 … −1). The
 * library gives the eigenvalues; the vectors come by inverse iteration, and each eigenvalue is made
 * exact by its Rayleigh quotient xᵀ·J·A·x/xᵀ·J·x, as J·x is the left vector. Two neighbours that
 * are a pair hold the real and imaginary part of a vector.
 */
final class CoupledModes {
  private static final int STEPS = 3;

  /** Off an eigenvalue by this share, so that there is something to solve. */
  private static final double OFF = 1e-9;

  /** Pairs closer to the real axis are two real ones. */
  private static final double REAL = 1e-9;

  private static final double RESIDUAL = 1e-6;

  private final double[][] a;
  private final int size;
  private final int positive;

  final double[] re;

  /** Positive of a pair's first column, negative of its second, 0 of a real one. */
  final double[] im;

  /** A column for each mode. */
  final double[][] vectors;

  final double[][] inverse;

  /**
   * @param a size × size, row by row
   * @param positive how many of J's entries are 1
   */
  CoupledModes(double[][] a, int positive) {
    this.a = a;
    this.positive = positive;
    size = a.length;
    re = new double[size];
    im = new double[size];
    vectors = new double[size][size];
    EigenDecomposition_F64<DMatrixRMaj> eig = DecompositionFactory_DDRM.eig(size, false, false);
    if (!eig.decompose(new DMatrixRMaj(a))) {
      throw new IllegalStateException("eigenvalues did not converge: size=" + size);
    }
    int column = 0;
    for (int k = 0; k < size; k++) {
      Complex_F64 value = eig.getEigenvalue(k);
      boolean pair = Math.abs(value.imaginary) > REAL * Math.abs(value.real);
      if (!pair) {
        solve(value.real, 0, column++, k);
      } else if (value.imaginary > 0) {
        solve(value.real, value.imaginary, column, k);
        column += 2;
      }
    }
    DMatrixRMaj inverted = new DMatrixRMaj(vectors);
    if (column != size || !CommonOps_DDRM.invert(inverted)) {
      throw new IllegalStateException("modes of one shape: size=" + size);
    }
    inverse = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        inverse[i][j] = inverted.get(i, j);
      }
    }
  }

  private void solve(double real, double imaginary, int column, int seed) {
    double sRe = real;
    double sIm = imaginary;
    double[] x = new double[2 * size];
    for (int i = 0; i < size; i++) {
      // Another start for each, so that equal eigenvalues get vectors of their own.
      x[2 * i] = i == seed ? size : 1.0 / (1 + i + seed);
    }
    for (int step = 0; step < STEPS; step++) {
      x = iterated(sRe, sIm, x);
      double[] s = quotient(x);
      sRe = s[0];
      sIm = imaginary == 0 ? 0 : s[1];
    }
    double left = 0;
    double most = 0;
    for (int i = 0; i < size; i++) {
      double sumRe = -sRe * x[2 * i] + sIm * x[2 * i + 1];
      double sumIm = -sRe * x[2 * i + 1] - sIm * x[2 * i];
      for (int j = 0; j < size; j++) {
        sumRe += a[i][j] * x[2 * j];
        sumIm += a[i][j] * x[2 * j + 1];
        most = Math.max(most, Math.abs(a[i][j]));
      }
      left = Math.max(left, Math.hypot(sumRe, sumIm));
    }
    if (!(left < RESIDUAL * most)) {
      throw new IllegalStateException("no mode of the circuit: residual=" + left + " of " + most);
    }
    re[column] = sRe;
    for (int i = 0; i < size; i++) {
      vectors[i][column] = x[2 * i];
    }
    if (imaginary != 0) {
      im[column] = sIm;
      re[column + 1] = sRe;
      im[column + 1] = -sIm;
      for (int i = 0; i < size; i++) {
        vectors[i][column + 1] = x[2 * i + 1];
      }
    }
  }

  /** (A − s)⁻¹·x, of length 1. */
  private double[] iterated(double sRe, double sIm, double[] x) {
    ZMatrixRMaj shifted = new ZMatrixRMaj(size, size);
    double off = OFF * Math.hypot(sRe, sIm);
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        boolean diagonal = i == j;
        shifted.set(i, j, a[i][j] - (diagonal ? sRe + off : 0), diagonal ? -sIm : 0);
      }
    }
    LinearSolverDense<ZMatrixRMaj> solver = LinearSolverFactory_ZDRM.lu(size);
    ZMatrixRMaj right = new ZMatrixRMaj(size, 1);
    right.setData(x.clone());
    ZMatrixRMaj solved = new ZMatrixRMaj(size, 1);
    if (!solver.setA(shifted)) {
      throw new IllegalStateException("no mode of the circuit: s=" + sRe + " " + sIm);
    }
    solver.solve(right, solved);
    double[] y = solved.getData().clone();
    // Of all phases the one that makes the largest entry real: a real vector then stays real.
    int top = 0;
    double length = 0;
    for (int i = 0; i < size; i++) {
      length += y[2 * i] * y[2 * i] + y[2 * i + 1] * y[2 * i + 1];
      top = Math.hypot(y[2 * i], y[2 * i + 1]) > Math.hypot(y[2 * top], y[2 * top + 1]) ? i : top;
    }
    double size1 = Math.hypot(y[2 * top], y[2 * top + 1]) * Math.sqrt(length);
    double cos = y[2 * top] / size1;
    double sin = y[2 * top + 1] / size1;
    for (int i = 0; i < size; i++) {
      double r = y[2 * i];
      double m = y[2 * i + 1];
      y[2 * i] = r * cos + m * sin;
      y[2 * i + 1] = m * cos - r * sin;
    }
    return y;
  }

  private double[] quotient(double[] x) {
    double topRe = 0;
    double topIm = 0;
    double lowRe = 0;
    double lowIm = 0;
    for (int i = 0; i < size; i++) {
      double sumRe = 0;
      double sumIm = 0;
      for (int j = 0; j < size; j++) {
        sumRe += a[i][j] * x[2 * j];
        sumIm += a[i][j] * x[2 * j + 1];
      }
      double sign = i < positive ? 1 : -1;
      double r = sign * x[2 * i];
      double m = sign * x[2 * i + 1];
      topRe += r * sumRe - m * sumIm;
      topIm += r * sumIm + m * sumRe;
      lowRe += r * x[2 * i] - m * x[2 * i + 1];
      lowIm += r * x[2 * i + 1] + m * x[2 * i];
    }
    double norm = lowRe * lowRe + lowIm * lowIm;
    return new double[] {
      (topRe * lowRe + topIm * lowIm) / norm, (topIm * lowRe - topRe * lowIm) / norm
    };
  }
}
