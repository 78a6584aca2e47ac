package bellwire.analysis.fault;

import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A cable in one state of the board and the far end, solved: the impedances between its nodes, and
 * from them what a four-terminal reading is and how it changes with each resistor. Theory (11) and
 * (31).
 */
final class Impedances {
  /** Keeps a node that nothing reaches solvable. */
  private static final double NODE_SIEMENS = 1e-13;

  private final Setting setting;
  private final Surroundings surroundings;
  private final int star;
  private final double[][] z;

  /**
   * @param resistors between nodes: the terminals by port, further ones, the common point; made
   *     positive
   * @param star number of the common point, the last node
   * @param held ports at common
   */
  Impedances(
      Surroundings surroundings, int stage, List<Resistor> resistors, int star, BitSet held) {
    this.surroundings = surroundings;
    this.star = star;
    setting = surroundings.setting();
    int further = star - setting.ports();
    Conductances net = surroundings.network(stage, held).extended(further);
    for (int node = setting.ports(); node < star; node++) {
      net.ground(index(node), NODE_SIEMENS);
    }
    for (Resistor resistor : resistors) {
      resistor.keepPositive();
      net.join(index(resistor.x), index(resistor.y), 1 / resistor.ohms);
    }
    z = net.impedances();
  }

  private int index(int node) {
    if (node < setting.ports()) {
      return surroundings.index(node);
    }
    return node == star ? surroundings.star() : surroundings.star() + 1 + node - setting.ports();
  }

  /** Theory (11), for a voltage between any two terminals. */
  void read(
      Ratio seen,
      List<Resistor> resistors,
      double[] values,
      int k,
      double @Nullable [][] jacobian) {
    int a = index(seen.a());
    int b = index(seen.b());
    int p = index(seen.p());
    int q = index(seen.q());
    double path = setting.referenceOhms() + setting.pathOhms();
    double loopA = path + z[a][a];
    double loopB = path + z[b][b];
    double forward = z[a][b] / loopB;
    double back = z[a][b] / loopA;
    double ownVolts = z[p][a] - z[q][a];
    double otherVolts = z[p][b] - z[q][b];
    double current = forward + back;
    values[k] = (ownVolts * (1 + back) - otherVolts * (1 + forward)) / current;
    if (jacobian == null) {
      return;
    }
    for (Resistor r : resistors) {
      double g = 1 / r.ohms;
      int x = index(r.x);
      int y = index(r.y);
      double dA = g * (z[a][x] - z[a][y]);
      double dB = g * (z[b][x] - z[b][y]);
      double dPq = g * (z[p][x] - z[p][y] - z[q][x] + z[q][y]);
      double dForward = (dA * dB - forward * dB * dB) / loopB;
      double dBack = (dA * dB - back * dA * dA) / loopA;
      double top =
          dPq * dA * (1 + back)
              + ownVolts * dBack
              - dPq * dB * (1 + forward)
              - otherVolts * dForward;
      double slope = (top - values[k] * (dForward + dBack)) / current;
      for (int t = 0; t < r.terms; t++) {
        jacobian[k][r.index[t]] += slope * r.slope[t];
      }
    }
  }
}
