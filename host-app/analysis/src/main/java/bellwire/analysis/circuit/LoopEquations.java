package bellwire.analysis.circuit;

import java.util.Arrays;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.decompose.lu.LUDecompositionAlt_ZDRM;
import org.ejml.dense.row.linsol.lu.LinearSolverLu_ZDRM;

/**
 * Currents of the loops that the links close through the trees, theory (60) to (64). Each loop's
 * current flows through its link from the first to the second node, and back through the tree.
 */
final class LoopEquations {
  /** How far the determinant may fall short of what resistances and inductances promise, (64). */
  private static final double SHORTFALL = 1e-6;

  private final ZMatrixRMaj z = new ZMatrixRMaj(1, 1);
  private final ZMatrixRMaj right = new ZMatrixRMaj(1, 1);
  private final ZMatrixRMaj currents = new ZMatrixRMaj(1, 1);
  private final LUDecompositionAlt_ZDRM lu = new LUDecompositionAlt_ZDRM();
  private final LinearSolverLu_ZDRM solver = new LinearSolverLu_ZDRM(lu);

  /** The loops through the tree's edge above a node: a list, by node. */
  private int[] firstUse = {};

  private int[] nextUse = new int[64];

  /** 2·loop of a use, one more where it goes against its element's direction. */
  private int[] use = new int[64];

  private int uses;
  private double[] scale = {};

  /** Of the last circuit, its determinant by the least that is promised: 1 or more, theory (64). */
  double margin = 1;

  /** By element, real and imaginary part side by side. */
  double[] amps(Circuit circuit, SpanningForest forest) {
    int loops = forest.linkCount;
    double[] amps = new double[2 * circuit.elements];
    margin = 1;
    if (loops == 0) {
      return amps;
    }
    build(circuit, forest);
    double promised = scale(circuit, forest);
    // The library's quality() of a complex matrix reads its real parts twice (0.46.1).
    double determinant = solver.setA(z) ? lu.computeDeterminant().getMagnitude() : 0;
    margin = determinant / promised;
    if (!(margin >= SHORTFALL)) {
      throw new IllegalArgumentException("no definite solution: margin=" + margin);
    }
    currents.reshape(loops, 1);
    solver.solve(right, currents);
    spread(circuit, forest, amps);
    return amps;
  }

  private void build(Circuit circuit, SpanningForest forest) {
    int loops = forest.linkCount;
    z.reshape(loops, loops);
    right.reshape(loops, 1);
    z.zero();
    right.zero();
    if (firstUse.length < circuit.nodes) {
      firstUse = new int[circuit.nodes];
    }
    Arrays.fill(firstUse, 0, circuit.nodes, -1);
    uses = 0;
    for (int loop = 0; loop < loops; loop++) {
      int link = forest.links[loop];
      cross(circuit, loop, link, 1);
      z.data[2 * (loop * loops + loop)] += circuit.ohms[2 * link];
      z.data[2 * (loop * loops + loop) + 1] += circuit.ohms[2 * link + 1];
      int up = circuit.b[link];
      int down = circuit.a[link];
      while (up != down) {
        if (forest.depth[up] >= forest.depth[down]) {
          int e = forest.element[up];
          pass(circuit, loop, up, e, circuit.a[e] == up ? 1 : -1);
          up = forest.parent[up];
        } else {
          int e = forest.element[down];
          pass(circuit, loop, down, e, circuit.a[e] == down ? -1 : 1);
          down = forest.parent[down];
        }
      }
    }
  }

  /** Goes through the tree's edge above a node, along its element for sign 1, against it for −1. */
  private void pass(Circuit circuit, int loop, int node, int e, int sign) {
    if (uses == use.length) {
      use = Arrays.copyOf(use, 2 * uses);
      nextUse = Arrays.copyOf(nextUse, 2 * uses);
    }
    use[uses] = 2 * loop + (sign < 0 ? 1 : 0);
    nextUse[uses] = firstUse[node];
    firstUse[node] = uses++;
    cross(circuit, loop, e, sign);
    int loops = z.numRows;
    for (int u = firstUse[node]; u >= 0; u = nextUse[u]) {
      int other = use[u] / 2;
      double s = use[u] % 2 == 0 ? sign : -sign;
      int at = 2 * (loop * loops + other);
      z.data[at] += s * circuit.ohms[2 * e];
      z.data[at + 1] += s * circuit.ohms[2 * e + 1];
    }
  }

  private void cross(Circuit circuit, int loop, int e, int sign) {
    right.data[2 * loop] -= sign * circuit.volts[2 * e];
    right.data[2 * loop + 1] -= sign * circuit.volts[2 * e + 1];
  }

  /**
   * Scales to a diagonal of modulus 1, and fills the upper triangle.
   *
   * @return least determinant with resistances and inductances alone
   */
  private double scale(Circuit circuit, SpanningForest forest) {
    int loops = z.numRows;
    if (scale.length < loops) {
      scale = new double[loops];
    }
    double promised = 1;
    for (int j = 0; j < loops; j++) {
      double whole = modulus(z.data, j * loops + j);
      int link = forest.links[j];
      if (whole == 0) {
        throw new IllegalArgumentException("loop of zero ohms: element=" + link);
      }
      promised *= modulus(circuit.ohms, link) / whole / Math.sqrt(2);
      scale[j] = 1 / Math.sqrt(whole);
      right.data[2 * j] *= scale[j];
      right.data[2 * j + 1] *= scale[j];
    }
    for (int j = 0; j < loops; j++) {
      for (int k = 0; k <= j; k++) {
        double s = scale[j] * scale[k];
        int at = 2 * (j * loops + k);
        int mirror = 2 * (k * loops + j);
        z.data[at] *= s;
        z.data[at + 1] *= s;
        z.data[mirror] = z.data[at];
        z.data[mirror + 1] = z.data[at + 1];
      }
    }
    return promised;
  }

  private static double modulus(double[] pairs, int i) {
    double re = pairs[2 * i];
    double im = pairs[2 * i + 1];
    return Math.sqrt(re * re + im * im);
  }

  /** Theory (63): a tree's element carries the currents of all loops through it. */
  private void spread(Circuit circuit, SpanningForest forest, double[] amps) {
    for (int loop = 0; loop < forest.linkCount; loop++) {
      int link = forest.links[loop];
      amps[2 * link] = currents.data[2 * loop] *= scale[loop];
      amps[2 * link + 1] = currents.data[2 * loop + 1] *= scale[loop];
    }
    for (int n = 0; n < circuit.nodes; n++) {
      int e = forest.element[n];
      for (int u = firstUse[n]; u >= 0; u = nextUse[u]) {
        int loop = use[u] / 2;
        double sign = use[u] % 2 == 0 ? 1 : -1;
        amps[2 * e] += sign * currents.data[2 * loop];
        amps[2 * e + 1] += sign * currents.data[2 * loop + 1];
      }
    }
  }
}
