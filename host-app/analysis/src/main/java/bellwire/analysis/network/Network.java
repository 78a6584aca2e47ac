package bellwire.analysis.network;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * A network of conductances between n nodes, with what leads from each node to ground. Symmetric;
 * stored as the n × n matrix of conductances with ground conductances on the diagonal.
 *
 * <p>Kron reduction after Dörfler and Bullo, "Kron reduction of graphs with applications to
 * electrical networks" (arXiv 1102.2950); resistance distance after Klein and Randić, J. Math.
 * Chem. 12 (1993) 81. Theory (5) to (7).
 */
public final class Network {
  private final int n;
  private final double[][] siemens;

  public Network(int nodes) {
    n = nodes;
    siemens = new double[nodes][nodes];
  }

  public int nodes() {
    return n;
  }

  /** Adds a conductance between two nodes. */
  public Network join(int a, int b, double conductance) {
    if (a == b || !(conductance >= 0)) {
      throw new IllegalArgumentException("a=" + a + " b=" + b + " conductance=" + conductance);
    }
    siemens[a][b] += conductance;
    siemens[b][a] += conductance;
    return this;
  }

  /** Adds a conductance from a node to ground. */
  public Network ground(int a, double conductance) {
    siemens[a][a] += conductance;
    return this;
  }

  public double between(int a, int b) {
    return siemens[a][b];
  }

  /** The n × n admittance (Laplacian) matrix Q: currents into the nodes are Q·v. */
  public DMatrixRMaj laplacian() {
    DMatrixRMaj q = new DMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      double sum = 0;
      for (int j = 0; j < n; j++) {
        sum += siemens[i][j];
        if (i != j) {
          q.set(i, j, -siemens[i][j]);
        }
      }
      q.set(i, i, sum);
    }
    return q;
  }

  /**
   * Node voltages for currents into the nodes; needs a path to ground from every node.
   *
   * @param amps n currents
   * @return n volts
   */
  public double[] volts(double[] amps) {
    DMatrixRMaj x = new DMatrixRMaj(n, 1);
    solve(laplacian(), DMatrixRMaj.wrap(n, 1, amps.clone()), x);
    return x.data;
  }

  /**
   * The network seen at the kept nodes, all others left floating: Q_aa − Q_ab Q_bb⁻¹ Q_ba, theory
   * (5).
   */
  public Network reduceTo(int... kept) {
    int[] gone = new int[n - kept.length];
    boolean[] keep = new boolean[n];
    for (int k : kept) {
      keep[k] = true;
    }
    int g = 0;
    for (int i = 0; i < n; i++) {
      if (!keep[i]) {
        gone[g++] = i;
      }
    }
    DMatrixRMaj q = laplacian();
    DMatrixRMaj aa = pick(q, kept, kept);
    if (gone.length > 0) {
      DMatrixRMaj ab = pick(q, kept, gone);
      DMatrixRMaj ba = pick(q, gone, kept);
      DMatrixRMaj x = new DMatrixRMaj(gone.length, kept.length);
      solve(pick(q, gone, gone), ba, x);
      CommonOps_DDRM.multAdd(-1, ab, x, aa);
    }
    return of(aa);
  }

  /**
   * Resistance distance of two nodes, all others floating; infinite where no path joins them.
   * Theory (6).
   */
  public double resistanceDistance(int a, int b) {
    if (a == b) {
      return 0;
    }
    int[] component = componentOf(a);
    int at = Arrays.binarySearch(component, b);
    if (at < 0) {
      return Double.POSITIVE_INFINITY;
    }
    int from = Arrays.binarySearch(component, a);
    DMatrixRMaj q = pick(laplacian(), component, component);
    int m = component.length;
    int[] rest = new int[m - 1];
    for (int i = 0, k = 0; i < m; i++) {
      if (i != at) {
        rest[k++] = i;
      }
    }
    DMatrixRMaj rhs = new DMatrixRMaj(m - 1, 1);
    int row = from < at ? from : from - 1;
    rhs.set(row, 0, 1);
    DMatrixRMaj x = new DMatrixRMaj(m - 1, 1);
    solve(pick(q, rest, rest), rhs, x);
    return x.get(row, 0);
  }

  /**
   * The network without ground whose resistance distances are given: with J the all-ones matrix and
   * P = I − J/m, the Laplacian is the pseudo-inverse of −½ P R P. Theory (7).
   *
   * @param ohms m × m resistance distances, symmetric, zero diagonal
   */
  public static Network ofResistanceDistances(double[][] ohms) {
    int m = ohms.length;
    DMatrixRMaj p = CommonOps_DDRM.identity(m);
    CommonOps_DDRM.add(p, -1.0 / m);
    DMatrixRMaj t = new DMatrixRMaj(m, m);
    DMatrixRMaj gram = new DMatrixRMaj(m, m);
    CommonOps_DDRM.mult(p, new DMatrixRMaj(ohms), t);
    CommonOps_DDRM.mult(-0.5, t, p, gram);
    CommonOps_DDRM.add(gram, 1.0 / m); // lifts the null space, which stays the constant vector
    DMatrixRMaj q = new DMatrixRMaj(m, m);
    solve(gram, CommonOps_DDRM.identity(m), q);
    CommonOps_DDRM.add(q, -1.0 / m);
    return of(q);
  }

  private int[] componentOf(int start) {
    boolean[] seen = new boolean[n];
    int[] stack = new int[n];
    int top = 0;
    int count = 0;
    stack[top++] = start;
    seen[start] = true;
    while (top > 0) {
      int i = stack[--top];
      count++;
      for (int j = 0; j < n; j++) {
        if (j != i && !seen[j] && siemens[i][j] > 0) {
          seen[j] = true;
          stack[top++] = j;
        }
      }
    }
    int[] component = new int[count];
    for (int i = 0, k = 0; i < n; i++) {
      if (seen[i]) {
        component[k++] = i;
      }
    }
    return component;
  }

  private static Network of(DMatrixRMaj q) {
    int m = q.numRows;
    Network net = new Network(m);
    for (int i = 0; i < m; i++) {
      double sum = q.get(i, i);
      for (int j = 0; j < m; j++) {
        if (j != i) {
          double g = -(q.get(i, j) + q.get(j, i)) / 2;
          net.siemens[i][j] = g;
          sum -= g;
        }
      }
      net.siemens[i][i] = sum;
    }
    return net;
  }

  private static DMatrixRMaj pick(DMatrixRMaj q, int[] rows, int[] columns) {
    DMatrixRMaj out = new DMatrixRMaj(rows.length, columns.length);
    for (int i = 0; i < rows.length; i++) {
      for (int j = 0; j < columns.length; j++) {
        out.set(i, j, q.get(rows[i], columns[j]));
      }
    }
    return out;
  }

  private static void solve(DMatrixRMaj a, DMatrixRMaj b, DMatrixRMaj x) {
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(a.numRows);
    if (!solver.setA(a.copy())) {
      throw new IllegalArgumentException("a node without a path to ground, nodes=" + a.numRows);
    }
    solver.solve(b.copy(), x);
  }
}
