package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.StarPhase.Observation;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.jspecify.annotations.Nullable;

/**
 * The circuit of a plug phase: what its observations would read for given arms, and how that
 * changes with each arm. Theory (11). One matrix inverse a call: a resistor's change dr between
 * nodes x and y moves the impedance z(p,q) by dr·g²·(z(p,x) − z(p,y))·(z(x,q) − z(y,q)), Sherman
 * and Morrison's formula in the limit.
 *
 * <p>Nodes: the ports; with bridges at the far end as many far ends; the plug's common point last.
 */
final class StarModel {
  /** Less than two contacts can have. */
  private static final double LEAST_OHMS = 1e-3;

  private final BoardModel board;
  private final Network bridges;
  private final List<Integer> ports;
  private final int guard;
  private final Map<Integer, Integer> armOf;
  private final List<Observation> observations;
  private final double @Nullable [] along;
  private final int[] nodeOf = new int[Ports.COUNT];
  private final int star;
  private final int shift;

  /**
   * @param bridges between the 17 ports, as the open phase found them
   * @param ports those with copper on them
   * @param guard mask of the ports held at common
   * @param armOf number of the arm by port
   * @param along null puts the bridges at the near end; otherwise the resistance of each arm's
   *     conductor ahead of them
   */
  StarModel(
      BoardModel board,
      Network bridges,
      List<Integer> ports,
      int guard,
      Map<Integer, Integer> armOf,
      List<Observation> observations,
      double @Nullable [] along) {
    this.board = board;
    this.bridges = bridges;
    this.ports = ports;
    this.guard = guard;
    this.armOf = armOf;
    this.observations = observations;
    this.along = along;
    for (int i = 0; i < ports.size(); i++) {
      nodeOf[ports.get(i)] = i;
    }
    shift = along == null ? 0 : ports.size();
    star = ports.size() + shift;
  }

  /**
   * @param values one a reading, ohm
   * @param jacobian readings × arms
   */
  record Readings(double[] values, double[][] jacobian) {}

  Readings at(double[] arms) {
    Network net = new Network(star + 1);
    // By arm: the resistor into the common point, and the port it belongs to.
    double[] siemens = new double[arms.length];
    int[] node = new int[arms.length];
    for (int i = 0; i < ports.size(); i++) {
      boolean held = (guard & Ports.bit(ports.get(i))) != 0;
      net.ground(i, held ? 1 / board.pathOhms() : 1 / board.dividerOhms());
      Integer arm = armOf.get(ports.get(i));
      double ahead = 0;
      if (along != null) {
        ahead = arm == null ? 0.1 : ahead(along[arm], total(arms[arm]));
        net.join(i, shift + i, 1 / ahead);
      }
      if (arm != null) {
        siemens[arm] = 1 / (total(arms[arm]) - ahead);
        node[arm] = shift + i;
        net.join(shift + i, star, siemens[arm]);
      }
    }
    addBridges(net);
    net.ground(star, 1e-12);
    return readings(inverse(net.laplacian()), siemens, node);
  }

  private static double total(double arm) {
    return Math.max(arm, LEAST_OHMS);
  }

  private static double ahead(double along, double total) {
    return Math.max(Math.min(along, 0.95 * total), LEAST_OHMS / 10);
  }

  private void addBridges(Network net) {
    for (int i = 0; i < ports.size(); i++) {
      for (int j = i + 1; j < ports.size(); j++) {
        double siemens = bridges.between(ports.get(i), ports.get(j));
        if (siemens > 0) {
          net.join(shift + i, shift + j, siemens);
        }
      }
    }
  }

  static DMatrixRMaj inverse(DMatrixRMaj q) {
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(q.numRows);
    if (!solver.setA(q)) {
      throw new IllegalStateException("not positive definite, size=" + q.numRows);
    }
    DMatrixRMaj z = new DMatrixRMaj(q.numRows, q.numRows);
    solver.invert(z);
    return z;
  }

  /**
   * Voltage over current, forward less back, theory (11): with f and b the share of the driving
   * current that returns, (A·(1 + b) − B·(1 + f)) / (f + b).
   */
  private Readings readings(DMatrixRMaj z, double[] siemens, int[] node) {
    double path = board.lowReferenceOhms() + board.pathOhms();
    double[] values = new double[observations.size()];
    double[][] jacobian = new double[values.length][siemens.length];
    for (int o = 0; o < values.length; o++) {
      Observation seen = observations.get(o);
      int a = nodeOf[seen.a()];
      int b = nodeOf[seen.b()];
      int k = nodeOf[seen.k()];
      double loopA = path + z.get(a, a);
      double loopB = path + z.get(b, b);
      double forward = z.get(a, b) / loopB;
      double back = z.get(a, b) / loopA;
      double ownVolts = z.get(a, a) - z.get(k, a);
      double otherVolts = z.get(a, b) - z.get(k, b);
      double current = forward + back;
      values[o] = (ownVolts * (1 + back) - otherVolts * (1 + forward)) / current;
      for (int i = 0; i < siemens.length; i++) {
        int x = node[i];
        double g = siemens[i];
        double dA = g * (z.get(a, x) - z.get(a, star));
        double dB = g * (z.get(b, x) - z.get(b, star));
        double dAk = dA - g * (z.get(k, x) - z.get(k, star));
        double dForward = (dA * dB - forward * dB * dB) / loopB;
        double dBack = (dA * dB - back * dA * dA) / loopA;
        double top =
            dAk * dA * (1 + back)
                + ownVolts * dBack
                - dAk * dB * (1 + forward)
                - otherVolts * dForward;
        jacobian[o][i] = (top - values[o] * (dForward + dBack)) / current;
      }
    }
    return new Readings(values, jacobian);
  }
}
