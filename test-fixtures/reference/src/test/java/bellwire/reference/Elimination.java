package bellwire.reference;

/** Gaussian elimination with row pivoting, for checks that must not use the product's algebra. */
final class Elimination {

  private Elimination() {}

  /** Solves a x = b; neither is modified. */
  static double[] solve(double[][] a, double[] b) {
    int n = b.length;
    double[][] m = new double[n][];
    for (int i = 0; i < n; i++) {
      m[i] = java.util.Arrays.copyOf(a[i], n + 1);
      m[i][n] = b[i];
    }
    for (int c = 0; c < n; c++) {
      int best = c;
      for (int r = c + 1; r < n; r++) {
        if (Math.abs(m[r][c]) > Math.abs(m[best][c])) {
          best = r;
        }
      }
      double[] swapped = m[c];
      m[c] = m[best];
      m[best] = swapped;
      for (int r = c + 1; r < n; r++) {
        double factor = m[r][c] / m[c][c];
        for (int k = c; k <= n; k++) {
          m[r][k] -= factor * m[c][k];
        }
      }
    }
    double[] x = new double[n];
    for (int i = n - 1; i >= 0; i--) {
      double rest = m[i][n];
      for (int k = i + 1; k < n; k++) {
        rest -= m[i][k] * x[k];
      }
      x[i] = rest / m[i][i];
    }
    return x;
  }

  /** Resistance between two nodes of a network given as {from, to, ohms}, nodes from 0. */
  static double resistance(int nodes, double[][] edges, int from, int to) {
    double[][] g = new double[nodes][nodes];
    for (double[] edge : edges) {
      int i = (int) edge[0];
      int j = (int) edge[1];
      double siemens = 1 / edge[2];
      g[i][i] += siemens;
      g[j][j] += siemens;
      g[i][j] -= siemens;
      g[j][i] -= siemens;
    }
    double[] current = new double[nodes];
    current[from] = 1;
    for (int k = 0; k < nodes; k++) {
      g[to][k] = k == to ? 1 : 0;
    }
    return solve(g, current)[from];
  }
}
