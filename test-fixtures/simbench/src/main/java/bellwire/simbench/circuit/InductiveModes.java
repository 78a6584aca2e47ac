package bellwire.simbench.circuit;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionNonSymmetric;
import org.hipparchus.linear.RealMatrix;

/**
 * Modes of z' = −Λ·z − K·j, j' = Kᵀ·z − D·j: n modes of a circuit of conductances and capacitances,
 * coupled to m inductors' currents, all scaled so that ½·zᵀ·z and ½·jᵀ·j are energies.
 *
 * <p>Modes faster than {@link #FAST} follow the currents at once, z = −Λ⁻¹·K·j, which adds Kᵀ·Λ⁻¹·K
 * to D, and decay by themselves: what is left for the general eigenproblem then spans few enough
 * decades to keep its slow modes' digits. The error is a delay of 1/λ, under 50 ns.
 */
final class InductiveModes {
  private static final double FAST = 2e7;

  private final int n;
  private final int m;
  private final int slow;
  private final double[][] k;
  private final double[] lambda;

  /** Decay and angular frequency of each mode, slowest first; 0 for a real one. */
  final double[] decay;

  final double[] beta;

  /** What each mode adds to (z, j): (n + m) × (n + m), a column for each mode. */
  final double[][] shape;

  private final double[][] inverse;
  private final int[] slowColumn;
  private final int[] fastColumn;

  /**
   * @param lambda n decays, rising
   * @param k coupling, n × m
   * @param d m decays of the currents by themselves
   */
  InductiveModes(double[] lambda, double[][] k, double[] d) {
    this.lambda = lambda;
    this.k = k;
    n = lambda.length;
    m = d.length;
    int count = 0;
    while (count < n && lambda[count] < FAST) {
      count++;
    }
    slow = count;
    int size = slow + m;
    EigenDecompositionNonSymmetric eig =
        new EigenDecompositionNonSymmetric(new Array2DRowRealMatrix(matrix(d), false));
    RealMatrix v = eig.getV();
    RealMatrix t = eig.getD();
    DMatrixRMaj inverted = new DMatrixRMaj(v.getData());
    if (!CommonOps_DDRM.invert(inverted)) {
      throw new IllegalStateException("modes of one shape: size=" + size);
    }
    inverse = new double[size][size];
    double[] rates = new double[n + m];
    double[] turns = new double[n + m];
    double[] signs = new double[size];
    Arrays.fill(signs, 1);
    for (int c = 0; c < size; c++) {
      rates[c] = Math.max(-t.getEntry(c, c), 1e-9);
      double turn = c + 1 < size ? t.getEntry(c, c + 1) : 0;
      if (turn != 0) {
        // Of a pair's two columns the second takes the sign that makes the frequency positive.
        signs[c + 1] = Math.signum(turn);
        turns[c] = Math.abs(turn);
        rates[c + 1] = rates[c];
        turns[c + 1] = -turns[c];
        c++;
      }
    }
    System.arraycopy(lambda, slow, rates, size, n - slow);
    int[] order = order(rates, turns);
    decay = new double[n + m];
    beta = new double[n + m];
    shape = new double[n + m][n + m];
    slowColumn = new int[size];
    fastColumn = new int[n - slow];
    for (int to = 0; to < n + m; to++) {
      int from = order[to];
      decay[to] = rates[from];
      beta[to] = Math.max(0, turns[from]);
      if (from < size) {
        slowColumn[from] = to;
        for (int i = 0; i < size; i++) {
          double value = signs[from] * v.getEntry(i, from);
          shape[i < slow ? i : n + i - slow][to] = value;
          inverse[from][i] = signs[from] * inverted.get(from, i);
        }
        for (int f = slow; f < n; f++) {
          for (int j = 0; j < m; j++) {
            shape[f][to] -= k[f][j] / lambda[f] * shape[n + j][to];
          }
        }
      } else {
        int f = from - m;
        fastColumn[f - slow] = to;
        shape[f][to] = 1;
      }
    }
  }

  private double[][] matrix(double[] d) {
    double[][] a = new double[slow + m][slow + m];
    for (int i = 0; i < slow; i++) {
      a[i][i] = -lambda[i];
      for (int j = 0; j < m; j++) {
        a[i][slow + j] = -k[i][j];
        a[slow + j][i] = k[i][j];
      }
    }
    for (int i = 0; i < m; i++) {
      a[slow + i][slow + i] = -d[i];
      for (int j = 0; j < m; j++) {
        for (int f = slow; f < n; f++) {
          a[slow + i][slow + j] -= k[f][i] * k[f][j] / lambda[f];
        }
      }
    }
    return a;
  }

  /** Slowest first, the two of a pair side by side. */
  private static int[] order(double[] rates, double[] turns) {
    Integer[] order = new Integer[rates.length];
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
    }
    // A pair's first column stands for both, so that no other mode of the same decay parts them.
    Arrays.sort(
        order,
        (x, y) -> {
          int byRate = Double.compare(rates[x], rates[y]);
          return byRate != 0
              ? byRate
              : Integer.compare(turns[x] < 0 ? x - 1 : x, turns[y] < 0 ? y - 1 : y);
        });
    return Arrays.stream(order).mapToInt(Integer::intValue).toArray();
  }

  /**
   * Amplitudes of the modes.
   *
   * @param z n of them
   * @param j m of them
   */
  double[] amplitudes(double[] z, double[] j) {
    double[] amplitudes = new double[n + m];
    for (int c = 0; c < slow + m; c++) {
      double sum = 0;
      for (int i = 0; i < slow; i++) {
        sum += inverse[c][i] * z[i];
      }
      for (int i = 0; i < m; i++) {
        sum += inverse[c][slow + i] * j[i];
      }
      amplitudes[slowColumn[c]] = sum;
    }
    for (int f = slow; f < n; f++) {
      double own = z[f];
      for (int i = 0; i < m; i++) {
        own += k[f][i] / lambda[f] * j[i];
      }
      amplitudes[fastColumn[f - slow]] = own;
    }
    return amplitudes;
  }
}
