package bellwire.simbench.circuit;

import java.util.Arrays;
import java.util.stream.IntStream;

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

  /** Coupling below this share of the largest is rounding, or of no account. */
  private static final double TOUCHED = 1e-7;

  private final int n;
  private final int m;
  private final double[][] k;
  private final double[] lambda;

  /** Modes in the general eigenproblem, and those apart, by their number. */
  private final int[] together;

  private final int[] apart;

  /** Decay and angular frequency of each mode, slowest first; 0 for a real one. */
  final double[] decay;

  final double[] beta;

  /** What each mode adds to (z, j): (n + m) × (n + m), a column for each mode. */
  final double[][] shape;

  private final double[][] inverse;
  private final int[] column;

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
    double most = Arrays.stream(k).flatMapToDouble(Arrays::stream).map(Math::abs).max().orElse(0);
    together =
        IntStream.range(0, n)
            .filter(i -> lambda[i] < FAST)
            .filter(i -> Arrays.stream(k[i]).anyMatch(x -> Math.abs(x) > TOUCHED * most))
            .toArray();
    apart = IntStream.range(0, n).filter(i -> Arrays.binarySearch(together, i) < 0).toArray();
    int size = together.length + m;
    CoupledModes coupled = new CoupledModes(matrix(d), together.length);
    double[] rates = new double[n + m];
    double[] turns = new double[n + m];
    for (int c = 0; c < size; c++) {
      rates[c] = Math.max(-coupled.re[c], 1e-9);
      turns[c] = coupled.im[c];
    }
    for (int i = 0; i < apart.length; i++) {
      rates[size + i] = lambda[apart[i]];
    }
    int[] order = order(rates, turns);
    decay = new double[n + m];
    beta = new double[n + m];
    column = new int[n + m];
    for (int to = 0; to < n + m; to++) {
      column[order[to]] = to;
      decay[to] = rates[order[to]];
      beta[to] = Math.max(0, turns[order[to]]);
    }
    shape = new double[n + m][n + m];
    inverse = coupled.inverse;
    for (int from = 0; from < size; from++) {
      for (int i = 0; i < size; i++) {
        shape[row(i)][column[from]] = coupled.vectors[i][from];
      }
      for (int own : apart) {
        for (int j = 0; j < m; j++) {
          shape[own][column[from]] -= follows(own, j) * shape[n + j][column[from]];
        }
      }
    }
    for (int i = 0; i < apart.length; i++) {
      shape[apart[i]][column[size + i]] = 1;
    }
  }

  private int row(int i) {
    return i < together.length ? together[i] : n + i - together.length;
  }

  /** How much of current j a mode apart follows at once. */
  private double follows(int own, int j) {
    return lambda[own] < FAST ? 0 : k[own][j] / lambda[own];
  }

  private double[][] matrix(double[] d) {
    int slow = together.length;
    double[][] a = new double[slow + m][slow + m];
    for (int i = 0; i < slow; i++) {
      a[i][i] = -lambda[together[i]];
      for (int j = 0; j < m; j++) {
        a[i][slow + j] = -k[together[i]][j];
        a[slow + j][i] = k[together[i]][j];
      }
    }
    for (int i = 0; i < m; i++) {
      a[slow + i][slow + i] = -d[i];
      for (int j = 0; j < m; j++) {
        for (int own : apart) {
          a[slow + i][slow + j] -= k[own][i] * follows(own, j);
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
    int slow = together.length;
    double[] amplitudes = new double[n + m];
    for (int c = 0; c < slow + m; c++) {
      double sum = 0;
      for (int i = 0; i < slow; i++) {
        sum += inverse[c][i] * z[together[i]];
      }
      for (int i = 0; i < m; i++) {
        sum += inverse[c][slow + i] * j[i];
      }
      amplitudes[column[c]] = sum;
    }
    for (int i = 0; i < apart.length; i++) {
      double own = z[apart[i]];
      for (int c = 0; c < m; c++) {
        own += follows(apart[i], c) * j[c];
      }
      amplitudes[column[slow + m + i]] = own;
    }
    return amplitudes;
  }
}
