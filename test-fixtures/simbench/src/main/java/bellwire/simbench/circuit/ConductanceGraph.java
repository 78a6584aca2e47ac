package bellwire.simbench.circuit;

import java.util.Arrays;

/**
 * The resistive part of a circuit as branch conductances, and its sources as currents, reduced node
 * by node with the star-mesh transform (Kron reduction). Only positive numbers are ever added,
 * never subtracted, so a leakage of picosiemens survives beside a contact of kilosiemens: the
 * elimination of Grassmann, Taksar and Heyman, Operations Research 33 (1985) 1107.
 *
 * <p>Sources are columns: 0 the constant ones, 1 the excitation, then real and imaginary part of
 * each tone.
 */
public final class ConductanceGraph implements Netlist {
  private final int size;
  private final int columns;
  private final double[] omegas;
  private final int[] local;
  private final int[] global;
  private final double[][] g;
  private final double[][] b;
  private final boolean[] eliminated;
  private final double[] sums;
  private final int[] order;
  private int eliminatedCount;

  /**
   * @param nodes numbers of the nodes that this graph has
   * @param nodeLimit one more than the largest node number in use
   * @param omegas angular frequency of each tone, rad/s
   */
  public ConductanceGraph(int[] nodes, int nodeLimit, double[] omegas) {
    size = nodes.length;
    columns = 2 + 2 * omegas.length;
    this.omegas = omegas;
    global = nodes;
    local = new int[nodeLimit];
    Arrays.fill(local, -1);
    for (int i = 0; i < size; i++) {
      local[nodes[i]] = i;
    }
    g = new double[size][size + 1];
    b = new double[size][columns];
    for (int i = 0; i < size; i++) {
      g[i][size] = Circuit.GMIN_SIEMENS;
    }
    eliminated = new boolean[size];
    sums = new double[size];
    order = new int[size];
  }

  /** Takes over what is left of a reduced graph: its remaining nodes must all be nodes here. */
  public void adopt(ConductanceGraph reduced) {
    for (int i = 0; i < reduced.size; i++) {
      if (reduced.eliminated[i]) {
        continue;
      }
      int mine = local[reduced.global[i]];
      // Its conductance to common holds the node's share of gmin already.
      g[mine][size] = reduced.g[i][reduced.size];
      System.arraycopy(reduced.b[i], 0, b[mine], 0, columns);
      for (int j = 0; j < reduced.size; j++) {
        if (!reduced.eliminated[j]) {
          g[mine][local[reduced.global[j]]] = reduced.g[i][j];
        }
      }
    }
  }

  @Override
  public void resistor(int a, int b, double ohms) {
    if (!(ohms > 0)) {
      throw new IllegalArgumentException("ohms=" + ohms);
    }
    join(a, b, 1 / ohms);
  }

  private void join(int a, int b, double siemens) {
    if (a == b) {
      return;
    }
    int i = a == COMMON ? size : local[a];
    int j = b == COMMON ? size : local[b];
    if (i != size) {
      g[i][j] += siemens;
    }
    if (j != size) {
      g[j][i] += siemens;
    }
  }

  @Override
  public void capacitor(int a, int b, double farads) {}

  @Override
  public void emf(int plus, int minus, double ohms, Drive drive) {
    resistor(plus, minus, ohms);
    current(plus, drive.column(), drive.re() / ohms);
    current(minus, drive.column(), -drive.re() / ohms);
    if (drive.tone() >= 0) {
      current(plus, drive.column() + 1, drive.im() / ohms);
      current(minus, drive.column() + 1, -drive.im() / ohms);
    }
  }

  /** Inductors are no conductances: {@link InductiveSystem} takes them beside the graph. */
  @Override
  public void inductor(Inductor inductor) {}

  @Override
  public void diode(int anode, int cathode, double volts, double ohms, boolean conducting) {
    if (conducting) {
      emf(anode, cathode, ohms, Drive.constant(volts));
    }
  }

  @Override
  public void inject(int into, double amps) {
    current(into, 0, amps);
  }

  @Override
  public void coupling(int node, int reference, double farads, Drive drive) {
    if (drive.tone() < 0) {
      return;
    }
    // I = jωC·V
    double siemens = omegas[drive.tone()] * farads;
    current(node, drive.column(), -siemens * drive.im());
    current(node, drive.column() + 1, siemens * drive.re());
    current(reference, drive.column(), siemens * drive.im());
    current(reference, drive.column() + 1, -siemens * drive.re());
  }

  private void current(int node, int column, double amps) {
    if (node != COMMON) {
      b[local[node]][column] += amps;
    }
  }

  /** Removes a node; what it joined is then joined directly. */
  public void eliminate(int node) {
    int k = local[node];
    double[] row = g[k];
    double sum = row[size];
    eliminated[k] = true;
    for (int i = 0; i < size; i++) {
      if (!eliminated[i]) {
        sum += row[i];
      }
    }
    sums[k] = sum;
    order[eliminatedCount++] = k;
    for (int i = 0; i < size; i++) {
      if (eliminated[i] || row[i] == 0) {
        continue;
      }
      double share = row[i] / sum;
      double[] target = g[i];
      for (int j = 0; j < size; j++) {
        if (j != i && !eliminated[j]) {
          target[j] += share * row[j];
        }
      }
      target[size] += share * row[size];
      target[k] = 0;
      for (int c = 0; c < columns; c++) {
        b[i][c] += share * b[k][c];
      }
    }
  }

  /**
   * The conductance matrix of the given nodes, which must be all that is left.
   *
   * @return n × n, row by row, siemens
   */
  double[][] matrix(int[] nodes) {
    int n = nodes.length;
    double[][] m = new double[n][n];
    for (int i = 0; i < n; i++) {
      double[] row = g[local[nodes[i]]];
      double sum = row[size];
      for (int j = 0; j < n; j++) {
        if (j != i) {
          double siemens = row[local[nodes[j]]];
          m[i][j] = -siemens;
          sum += siemens;
        }
      }
      m[i][i] = sum;
    }
    return m;
  }

  /** A column of the currents into the given nodes. */
  double[] currents(int[] nodes, int column) {
    double[] amps = new double[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      amps[i] = b[local[nodes[i]]][column];
    }
    return amps;
  }

  /** How many nodes have been eliminated: a mark to go back to in {@link #complete}. */
  public int mark() {
    return eliminatedCount;
  }

  /**
   * Fills in the voltages of eliminated nodes, latest first.
   *
   * @param volts by node number; entries of nodes that are left must be set, the others are written
   * @param from the mark to stop at: nodes eliminated earlier are left alone
   * @param to the mark to begin at
   * @param column whose sources act, or −1 for none
   */
  void complete(double[] volts, int from, int to, int column) {
    for (int e = to - 1; e >= from; e--) {
      int k = order[e];
      double sum = column < 0 ? 0 : b[k][column];
      for (int j = 0; j < size; j++) {
        // Zero for nodes eliminated before this one.
        sum += g[k][j] * volts[global[j]];
      }
      volts[global[k]] = sum / sums[k];
    }
  }
}
