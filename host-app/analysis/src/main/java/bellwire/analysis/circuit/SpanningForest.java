package bellwire.analysis.circuit;

import java.util.Arrays;

/** A tree of least impedances in each island, theory (59), by Kruskal's algorithm. */
final class SpanningForest {
  /** Of a sorting key's low end, for the element's number; the rest orders by impedance. */
  static final int INDEX_BITS = 16;

  private static final long INDEX = (1L << INDEX_BITS) - 1;

  /** Towards its root, by node: the next node, −1 at a root; the element there; steps to go. */
  int[] parent = {};

  int[] element = {};
  int[] depth = {};

  /** Every node, after its parent. */
  int[] order = {};

  /** Elements that are in no tree. */
  int[] links = {};

  int linkCount;

  private int[] leader = {};
  private int[] island = {};
  private int[] firstEdge = {};
  private int[] nextEdge = {};
  private long[] keys = {};
  private int nodes;

  void grow(Circuit circuit) {
    resize(circuit);
    sort(circuit);
    linkCount = 0;
    for (int i = 0; i < circuit.elements; i++) {
      int e = (int) (keys[i] & INDEX);
      int x = find(circuit.a[e]);
      int y = find(circuit.b[e]);
      if (x == y) {
        links[linkCount++] = e;
      } else {
        leader[Math.max(x, y)] = Math.min(x, y);
        hang(circuit.a[e], 2 * e);
        hang(circuit.b[e], 2 * e + 1);
      }
    }
    int placed = 0;
    for (int root = 0; root < nodes; root++) {
      if (find(root) == root) {
        placed = root(circuit, root, placed);
      }
    }
  }

  /** Island of each node: its lowest node. */
  int[] islands() {
    return Arrays.copyOf(island, nodes);
  }

  private void resize(Circuit circuit) {
    nodes = circuit.nodes;
    if (parent.length < nodes) {
      parent = new int[nodes];
      element = new int[nodes];
      depth = new int[nodes];
      order = new int[nodes];
      leader = new int[nodes];
      island = new int[nodes];
      firstEdge = new int[nodes];
    }
    if (keys.length < circuit.elements) {
      keys = new long[circuit.a.length];
      links = new int[circuit.a.length];
      nextEdge = new int[2 * circuit.a.length];
    }
    for (int n = 0; n < nodes; n++) {
      leader[n] = n;
      firstEdge[n] = -1;
    }
  }

  /** Doubles that are not negative sort as their bits do. */
  private void sort(Circuit circuit) {
    double[] z = circuit.ohms;
    for (int e = 0; e < circuit.elements; e++) {
      double square = z[2 * e] * z[2 * e] + z[2 * e + 1] * z[2 * e + 1];
      keys[e] = (Double.doubleToRawLongBits(square) & ~INDEX) | e;
    }
    Arrays.sort(keys, 0, circuit.elements);
  }

  private int find(int node) {
    int n = node;
    while (leader[n] != n) {
      leader[n] = leader[leader[n]];
      n = leader[n];
    }
    return n;
  }

  /** Edges are an element's two ends: the even one at its first node. */
  private void hang(int node, int edge) {
    nextEdge[edge] = firstEdge[node];
    firstEdge[node] = edge;
  }

  private int root(Circuit circuit, int root, int placed) {
    parent[root] = -1;
    element[root] = -1;
    depth[root] = 0;
    island[root] = root;
    int end = placed;
    order[end++] = root;
    for (int i = placed; i < end; i++) {
      int from = order[i];
      for (int edge = firstEdge[from]; edge >= 0; edge = nextEdge[edge]) {
        int e = edge / 2;
        if (e != element[from]) {
          int to = edge % 2 == 0 ? circuit.b[e] : circuit.a[e];
          parent[to] = from;
          element[to] = e;
          depth[to] = depth[from] + 1;
          island[to] = root;
          order[end++] = to;
        }
      }
    }
    return end;
  }

  /** Theory (65). */
  double[] nodeVolts(Circuit circuit, double[] amps) {
    double[] v = new double[2 * nodes];
    for (int i = 0; i < nodes; i++) {
      int n = order[i];
      if (parent[n] >= 0) {
        int e = element[n];
        double zr = circuit.ohms[2 * e];
        double zi = circuit.ohms[2 * e + 1];
        double re = circuit.volts[2 * e] + zr * amps[2 * e] - zi * amps[2 * e + 1];
        double im = circuit.volts[2 * e + 1] + zr * amps[2 * e + 1] + zi * amps[2 * e];
        double sign = circuit.a[e] == n ? 1 : -1;
        v[2 * n] = v[2 * parent[n]] + sign * re;
        v[2 * n + 1] = v[2 * parent[n] + 1] + sign * im;
      }
    }
    return v;
  }
}
