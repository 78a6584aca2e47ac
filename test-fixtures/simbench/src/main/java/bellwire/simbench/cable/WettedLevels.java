package bellwire.simbench.cable;

import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.Drive;
import bellwire.simbench.circuit.Netlist;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * Where the event path's ports come to rest in one state of switches and copper, and how fast: each
 * port alone with the resistance that it sees and the capacitance of all copper joined to it. AC
 * sources are left out, and diodes.
 *
 * @param restVolts of each port behind its relay, P1 first
 * @param tauSeconds each port's time constant
 */
record WettedLevels(double[] restVolts, double[] tauSeconds) {
  static final int PORTS = 16;

  /** What is joined by less moves as one. A coded plug's arms do. */
  private static final double JOINED_OHMS = 2000;

  /** From each node to common, for what hangs in the air; 2 uV at a wetted port. */
  private static final double AIR_SIEMENS = 1e-10;

  /**
   * @param innerNodes of the ports behind their relays, P1 first
   */
  static WettedLevels of(Circuit circuit, int[] innerNodes) {
    int n = circuit.nodeNames().size();
    DMatrixRMaj conductance = new DMatrixRMaj(n, n);
    DMatrixRMaj current = new DMatrixRMaj(n, 1);
    for (int i = 0; i < n; i++) {
      conductance.add(i, i, AIR_SIEMENS);
    }
    Joined joined = new Joined(n);
    for (Circuit.Element element : circuit.elements()) {
      if (element instanceof Circuit.Resistor r) {
        stamp(conductance, joined, r.a(), r.b(), r.ohms());
      } else if (element instanceof Circuit.Winding w) {
        stamp(conductance, joined, w.inductor().a(), w.inductor().b(), w.inductor().ohms());
      } else if (element instanceof Circuit.Emf e) {
        stamp(conductance, joined, e.plus(), e.minus(), e.ohms());
        double amps = e.drive().tone() == Drive.DC ? e.drive().re() / e.ohms() : 0;
        inject(current, e.plus(), amps);
        inject(current, e.minus(), -amps);
      } else if (element instanceof Circuit.Injection i) {
        inject(current, i.into(), i.amps());
      }
    }
    double[] farads = farads(circuit.elements(), joined, n);
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    if (!solver.setA(conductance)) {
      throw new IllegalStateException("no rest of the wetted circuit: nodes=" + n);
    }
    DMatrixRMaj volts = new DMatrixRMaj(n, 1);
    double[] rest = new double[PORTS];
    double[] tau = new double[PORTS];
    solver.solve(current, volts);
    for (int p = 0; p < PORTS; p++) {
      rest[p] = volts.get(innerNodes[p], 0);
    }
    for (int p = 0; p < PORTS; p++) {
      current.zero();
      current.set(innerNodes[p], 0, 1);
      solver.solve(current, volts);
      tau[p] = volts.get(innerNodes[p], 0) * farads[joined.of(innerNodes[p])];
    }
    return new WettedLevels(rest, tau);
  }

  private static void stamp(DMatrixRMaj g, Joined joined, int a, int b, double ohms) {
    double siemens = 1 / ohms;
    if (a != Netlist.COMMON) {
      g.add(a, a, siemens);
    }
    if (b != Netlist.COMMON) {
      g.add(b, b, siemens);
    }
    if (a != Netlist.COMMON && b != Netlist.COMMON) {
      g.add(a, b, -siemens);
      g.add(b, a, -siemens);
      if (ohms <= JOINED_OHMS) {
        joined.join(a, b);
      }
    }
  }

  private static void inject(DMatrixRMaj current, int node, double amps) {
    if (node != Netlist.COMMON) {
      current.add(node, 0, amps);
    }
  }

  /** Of what is joined to everything else, by the number of its first node. */
  private static double[] farads(List<Circuit.Element> elements, Joined joined, int nodes) {
    double[] farads = new double[nodes];
    for (Circuit.Element element : elements) {
      if (element instanceof Circuit.Capacitor c) {
        charge(farads, joined, c.a(), c.b(), c.farads());
      } else if (element instanceof Circuit.Coupling c) {
        charge(farads, joined, c.node(), c.reference(), c.farads());
      }
    }
    return farads;
  }

  private static void charge(double[] farads, Joined joined, int a, int b, double c) {
    int setA = a == Netlist.COMMON ? -1 : joined.of(a);
    int setB = b == Netlist.COMMON ? -1 : joined.of(b);
    if (setA != setB) {
      if (setA >= 0) {
        farads[setA] += c;
      }
      if (setB >= 0) {
        farads[setB] += c;
      }
    }
  }

  /** Sets of nodes, each known by one of them. */
  private static final class Joined {
    private final int[] parent;

    Joined(int nodes) {
      parent = new int[nodes];
      for (int i = 0; i < nodes; i++) {
        parent[i] = i;
      }
    }

    int of(int node) {
      int root = node;
      while (parent[root] != root) {
        parent[root] = parent[parent[root]];
        root = parent[root];
      }
      return root;
    }

    void join(int a, int b) {
      parent[of(a)] = of(b);
    }
  }
}
