package bellwire.analysis.fault;

import java.util.BitSet;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.jspecify.annotations.Nullable;

/**
 * A cable in one state of the board and the far end, solved: the impedances between its nodes, and
 * from them what a four-terminal reading is and how it changes with each resistor. Theory (11) and
 * (31).
 */
final class Impedances {
  private static final double STAR_SIEMENS = 1e-12;
  private static final double NODE_SIEMENS = 1e-13;

  private final Setting setting;
  private final DMatrixRMaj z;

  /**
   * @param background conductances between terminals, siemens
   * @param arms by port, resistance to the common point, NaN for none
   * @param resistors between nodes; made positive
   * @param star number of the common point, the last node
   * @param held ports at common
   */
  Impedances(
      Setting setting,
      double[][] background,
      double[] arms,
      List<Resistor> resistors,
      int star,
      BitSet held) {
    this.setting = setting;
    int n = star + 1;
    DMatrixRMaj q = new DMatrixRMaj(n, n);
    for (int port = 0; port < setting.ports(); port++) {
      q.add(port, port, held.get(port) ? 1 / setting.pathOhms() : 1 / setting.dividerOhms());
      for (int other = port + 1; other < setting.ports(); other++) {
        if (background[port][other] > 0) {
          join(q, port, other, background[port][other]);
        }
      }
    }
    for (int node = setting.ports(); node < star; node++) {
      q.add(node, node, NODE_SIEMENS);
    }
    q.add(star, star, STAR_SIEMENS);
    for (int port = 0; port < arms.length; port++) {
      if (!Double.isNaN(arms[port])) {
        join(q, port, star, 1 / Math.max(arms[port], Resistor.LEAST_OHMS));
      }
    }
    for (Resistor resistor : resistors) {
      resistor.keepPositive();
      join(q, resistor.x, resistor.y, 1 / resistor.ohms);
    }
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    if (!solver.setA(q)) {
      throw new IllegalStateException("not positive definite, nodes=" + n);
    }
    z = new DMatrixRMaj(n, n);
    solver.invert(z);
  }

  private static void join(DMatrixRMaj q, int x, int y, double siemens) {
    q.add(x, x, siemens);
    q.add(y, y, siemens);
    q.add(x, y, -siemens);
    q.add(y, x, -siemens);
  }

  /** Theory (11), for a voltage between any two terminals. */
  void read(
      Ratio seen,
      List<Resistor> resistors,
      double[] values,
      int k,
      double @Nullable [][] jacobian) {
    int a = seen.a();
    int b = seen.b();
    int p = seen.p();
    int q = seen.q();
    double path = setting.referenceOhms() + setting.pathOhms();
    double loopA = path + z.get(a, a);
    double loopB = path + z.get(b, b);
    double forward = z.get(a, b) / loopB;
    double back = z.get(a, b) / loopA;
    double ownVolts = z.get(p, a) - z.get(q, a);
    double otherVolts = z.get(p, b) - z.get(q, b);
    double current = forward + back;
    values[k] = (ownVolts * (1 + back) - otherVolts * (1 + forward)) / current;
    if (jacobian == null) {
      return;
    }
    for (Resistor r : resistors) {
      double g = 1 / r.ohms;
      double dA = g * (z.get(a, r.x) - z.get(a, r.y));
      double dB = g * (z.get(b, r.x) - z.get(b, r.y));
      double dPq = g * (z.get(p, r.x) - z.get(p, r.y) - z.get(q, r.x) + z.get(q, r.y));
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
