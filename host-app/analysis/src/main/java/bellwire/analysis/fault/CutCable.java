package bellwire.analysis.fault;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * Capacitances at the near end of a cable of which some conductors are cut through: the forward map
 * from places to readings. Every conductor has the same capacitance to every other, and a share to
 * metal, evenly along the run. What lies beyond a cut floats, and so does metal that is not
 * clipped. Theory (27).
 */
public final class CutCable {
  /** A cut at the very end leaves a stub of no length, which would have no voltage. */
  private static final double LEAST_STUB = 1e-6;

  private final int conductors;
  private final boolean metalHeld;

  /**
   * @param conductors in the cable, 2 or more
   * @param metalHeld whether metal or drain is clipped and so held at common with the others
   */
  public CutCable(int conductors, boolean metalHeld) {
    if (conductors < 2) {
      throw new IllegalArgumentException("conductors=" + conductors);
    }
    this.conductors = conductors;
    this.metalHeld = metalHeld;
  }

  public int conductors() {
    return conductors;
  }

  /**
   * Capacitance matrix of the near ends: charge on conductor i for one volt on j, all others at
   * common; the ports' own stray capacitance is not in it.
   *
   * @param reach where each conductor is cut, as a fraction of the run from the near end; 1 or more
   *     for a whole one
   * @param metalShare the share of a whole conductor's capacitance that is to metal
   * @return n × n, in units of a whole conductor's capacitance to all else held at common
   */
  public double[][] matrix(double[] reach, double metalShare) {
    if (reach.length != conductors) {
      throw new IllegalArgumentException("reach=" + reach.length + " conductors=" + conductors);
    }
    int[] cut = cut(reach);
    int n = conductors;
    int nodes = n + cut.length + (metalHeld ? 0 : 1);
    double pair = (1 - metalShare) / (n - 1);
    DMatrixRMaj all = new DMatrixRMaj(nodes, nodes);
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        join(all, i, j, pair * near(reach, i, j));
      }
      toMetal(all, i, metalShare * near(reach, i));
    }
    for (int f = 0; f < cut.length; f++) {
      double stub = Math.max(LEAST_STUB, 1 - reach[cut[f]]);
      for (int j = 0; j < n; j++) {
        if (j != cut[f]) {
          double overlap = near(reach, j) - Math.max(0, reach[cut[f]]);
          join(all, n + f, j, pair * Math.max(0, Math.min(stub, overlap)));
        }
      }
      for (int g = f + 1; g < cut.length; g++) {
        double other = Math.max(LEAST_STUB, 1 - reach[cut[g]]);
        join(all, n + f, n + g, pair * Math.min(stub, other));
      }
      toMetal(all, n + f, metalShare * stub);
    }
    return reduced(all, n);
  }

  private static int[] cut(double[] reach) {
    int[] cut = new int[reach.length];
    int count = 0;
    for (int i = 0; i < reach.length; i++) {
      if (reach[i] < 1) {
        cut[count++] = i;
      }
    }
    return Arrays.copyOf(cut, count);
  }

  private static double near(double[] reach, int i) {
    return Math.min(1, reach[i]);
  }

  private static double near(double[] reach, int i, int j) {
    return Math.min(near(reach, i), near(reach, j));
  }

  private void toMetal(DMatrixRMaj all, int node, double farads) {
    if (metalHeld) {
      all.add(node, node, farads);
    } else {
      join(all, node, all.numRows - 1, farads);
    }
  }

  private static void join(DMatrixRMaj all, int a, int b, double farads) {
    all.add(a, a, farads);
    all.add(b, b, farads);
    all.add(a, b, -farads);
    all.add(b, a, -farads);
  }

  /** Eliminates the floating nodes, the last ones, one after the other. Theory (5). */
  private static double[][] reduced(DMatrixRMaj all, int keep) {
    for (int k = all.numRows - 1; k >= keep; k--) {
      double pivot = all.get(k, k);
      if (!(Math.abs(pivot) > 0)) {
        continue; // joined to nothing
      }
      for (int i = 0; i < k; i++) {
        double share = all.get(i, k) / pivot;
        for (int j = 0; j < k; j++) {
          all.add(i, j, -share * all.get(k, j));
        }
      }
    }
    DMatrixRMaj kept = CommonOps_DDRM.extract(all, 0, keep, 0, keep);
    double[][] matrix = new double[keep][keep];
    for (int i = 0; i < keep; i++) {
      for (int j = 0; j < keep; j++) {
        matrix[i][j] = kept.get(i, j);
      }
    }
    return matrix;
  }
}
