package bellwire.simbench.circuit;

/**
 * The nodes that carry capacitance, their capacitance matrix and its Cholesky factor. Takes the
 * capacitors out of a netlist and lets the rest pass by.
 */
public final class CapacitanceMatrix implements Netlist {
  private final double[][] all;

  public CapacitanceMatrix(int nodes) {
    all = new double[nodes][nodes];
  }

  @Override
  public void resistor(int a, int b, double ohms) {}

  @Override
  public void emf(int plus, int minus, double ohms, Drive drive) {}

  @Override
  public void inductor(Inductor inductor) {}

  @Override
  public void diode(int anode, int cathode, double volts, double ohms, boolean conducting) {}

  @Override
  public void inject(int into, double amps) {}

  @Override
  public void coupling(int node, int reference, double farads, Drive drive) {
    capacitor(node, reference, farads);
  }

  @Override
  public void capacitor(int a, int b, double farads) {
    if (a == b) {
      return;
    }
    if (a != COMMON) {
      all[a][a] += farads;
    }
    if (b != COMMON) {
      all[b][b] += farads;
    }
    if (a != COMMON && b != COMMON) {
      all[a][b] -= farads;
      all[b][a] -= farads;
    }
  }

  /** Nodes with any capacitance, ascending. */
  public int[] dynamicNodes() {
    int count = 0;
    int[] nodes = new int[all.length];
    for (int i = 0; i < all.length; i++) {
      if (all[i][i] > 0) {
        nodes[count++] = i;
      }
    }
    return java.util.Arrays.copyOf(nodes, count);
  }

  /**
   * Lower Cholesky factor over {@link #dynamicNodes()}. A group of nodes with no capacitance to
   * common has no factor.
   *
   * @return n × n, row by row
   */
  public double[][] cholesky() {
    int[] nodes = dynamicNodes();
    int n = nodes.length;
    double[][] l = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = all[nodes[i]][nodes[j]];
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        if (i == j) {
          if (sum <= 0) {
            throw new IllegalArgumentException("no capacitance to common: node=" + nodes[i]);
          }
          l[i][i] = Math.sqrt(sum);
        } else {
          l[i][j] = sum / l[j][j];
        }
      }
    }
    return l;
  }
}
