package bellwire.analysis.fault;

import java.util.Arrays;

/**
 * A network of conductances, eliminated node by node from the last to the first, each turned from a
 * star into a mesh. Nothing but positive numbers is ever added, so that every impedance keeps
 * nearly all its digits although bridges of milliohms and dividers of megohms meet in one circuit
 * (Grassmann, Taksar and Heyman, Oper. Res. 33 (1985) 1107, remembered). Theory (31).
 */
final class Conductances {
  private final int n;

  /** Below the diagonal between two nodes, on it to ground; siemens. */
  private final double[][] g;

  Conductances(int nodes) {
    n = nodes;
    g = new double[nodes][];
    for (int i = 0; i < nodes; i++) {
      g[i] = new double[i + 1];
    }
  }

  void join(int x, int y, double siemens) {
    g[Math.max(x, y)][Math.min(x, y)] += siemens;
  }

  void ground(int x, double siemens) {
    g[x][x] += siemens;
  }

  /** The same, with more nodes after the last. */
  Conductances extended(int more) {
    Conductances larger = new Conductances(n + more);
    for (int i = 0; i < n; i++) {
      System.arraycopy(g[i], 0, larger.g[i], 0, i + 1);
    }
    return larger;
  }

  /** What is seen at the first nodes, the others left alone. Theory (5). */
  Conductances reducedTo(int first) {
    Conductances work = extended(0);
    work.eliminate(first);
    Conductances reduced = new Conductances(first);
    System.arraycopy(work.g, 0, reduced.g, 0, first);
    return reduced;
  }

  /**
   * Row k keeps what the node had when its turn came.
   *
   * @return by node, all that it had
   */
  private double[] eliminate(int first) {
    double[] sums = new double[n];
    for (int k = n - 1; k >= first; k--) {
      double[] row = g[k];
      double sum = Arrays.stream(row).sum();
      sums[k] = sum;
      for (int i = 0; i < k; i++) {
        if (row[i] > 0) {
          double share = row[i] / sum;
          for (int j = 0; j < i; j++) {
            g[i][j] += share * row[j];
          }
          g[i][i] += share * row[k];
        }
      }
    }
    return sums;
  }

  /**
   * Voltage at one node for a current of 1 A into another; needs a path to ground from every node.
   * What was joined is used up.
   *
   * @return n × n, ohm
   */
  double[][] impedances() {
    double[] sums = eliminate(0);
    double[][] z = new double[n][n];
    for (int k = 0; k < n; k++) {
      for (int j = 0; j < k; j++) {
        if (g[k][j] > 0) {
          double share = g[k][j] / sums[k];
          for (int i = 0; i < k; i++) {
            z[k][i] += share * z[j][i];
          }
        }
      }
      z[k][k] = 1 / sums[k];
      for (int j = 0; j < k; j++) {
        z[j][k] = z[k][j];
        z[k][k] += g[k][j] / sums[k] * z[k][j];
      }
    }
    return z;
  }
}
