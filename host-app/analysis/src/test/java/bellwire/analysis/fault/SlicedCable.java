package bellwire.analysis.fault;

import java.util.SplittableRandom;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * A cable cut into thin slices, each slice of each conductor belonging to its near or its far part:
 * capacitances by brute force, with every pair as unlike the others as asked for.
 */
final class SlicedCable {
  static final int SLICES = 1000;

  private final int conductors;
  private final boolean metalHeld;
  private final double[][] pair;
  private final double[] metal;

  /**
   * @param wholeFarads of one conductor to all else
   * @param metalShare share of it that is to metal
   * @param spread relative half-width of each pair
   */
  SlicedCable(
      int conductors,
      boolean metalHeld,
      double wholeFarads,
      double metalShare,
      double spread,
      SplittableRandom random) {
    this.conductors = conductors;
    this.metalHeld = metalHeld;
    pair = new double[conductors][conductors];
    metal = new double[conductors];
    for (int i = 0; i < conductors; i++) {
      metal[i] = wholeFarads * metalShare * (1 + spread * (2 * random.nextDouble() - 1));
      for (int j = i + 1; j < conductors; j++) {
        double farads = wholeFarads * (1 - metalShare) / (conductors - 1);
        pair[i][j] = farads * (1 + spread * (2 * random.nextDouble() - 1));
        pair[j][i] = pair[i][j];
      }
    }
  }

  /** Charge on the driven conductors for one volt on them, all other near ends at common. */
  double farads(double[] reach, int... driven) {
    int metalNode = 2 * conductors;
    DMatrixRMaj all = new DMatrixRMaj(metalNode + 1, metalNode + 1);
    for (int s = 0; s < SLICES; s++) {
      double at = (s + 0.5) / SLICES;
      for (int i = 0; i < conductors; i++) {
        int a = at < reach[i] ? i : conductors + i;
        join(all, a, metalNode, metal[i] / SLICES);
        for (int j = i + 1; j < conductors; j++) {
          join(all, a, at < reach[j] ? j : conductors + j, pair[i][j] / SLICES);
        }
      }
    }
    double[] volts = new double[metalNode + 1];
    for (int d : driven) {
      volts[d] = 1;
    }
    // Held nodes: a row of their own; floating ones: no charge.
    DMatrixRMaj rows = all.copy();
    DMatrixRMaj right = new DMatrixRMaj(metalNode + 1, 1);
    for (int node = 0; node <= metalNode; node++) {
      boolean held = node < conductors || (node == metalNode && metalHeld);
      if (held || all.get(node, node) == 0) {
        for (int k = 0; k <= metalNode; k++) {
          rows.set(node, k, k == node ? 1 : 0);
        }
        right.set(node, 0, held ? volts[node] : 0);
      }
    }
    DMatrixRMaj v = new DMatrixRMaj(metalNode + 1, 1);
    CommonOps_DDRM.solve(rows, right, v);
    DMatrixRMaj charge = new DMatrixRMaj(metalNode + 1, 1);
    CommonOps_DDRM.mult(all, v, charge);
    double sum = 0;
    for (int d : driven) {
      sum += charge.get(d, 0);
    }
    return sum;
  }

  private static void join(DMatrixRMaj all, int a, int b, double farads) {
    all.add(a, a, farads);
    all.add(b, b, farads);
    all.add(a, b, -farads);
    all.add(b, a, -farads);
  }
}
