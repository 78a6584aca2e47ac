package bellwire.analysis.circuit;

import bellwire.analysis.circuit.DrawnCircuit.Branch;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_ZDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
import org.hipparchus.complex.Complex;

/** The plain way, to compare with: nodal equations, node 0 the reference, one dense complex LU. */
final class DenseNodes {
  private final LinearSolverDense<ZMatrixRMaj> solver = LinearSolverFactory_ZDRM.lu(16);
  private final ZMatrixRMaj y = new ZMatrixRMaj(1, 1);
  private final ZMatrixRMaj volts = new ZMatrixRMaj(1, 1);

  void solve(DrawnCircuit drawn) {
    int n = drawn.nodes() - 1;
    y.reshape(n, n);
    y.zero();
    volts.reshape(n, 1);
    volts.zero();
    for (Branch branch : drawn.branches()) {
      Complex g = branch.ohms().reciprocal();
      Complex inject = g.multiply(branch.volts());
      stamp(branch.a() - 1, branch.b() - 1, g, inject);
      stamp(branch.b() - 1, branch.a() - 1, g, inject.negate());
    }
    if (!solver.setA(y)) {
      throw new IllegalStateException("nodes=" + n);
    }
    solver.solve(volts, volts);
  }

  private void stamp(int row, int other, Complex g, Complex inject) {
    if (row < 0) {
      return;
    }
    add(y, row * y.numCols + row, g);
    if (other >= 0) {
      add(y, row * y.numCols + other, g.negate());
    }
    add(volts, row, inject);
  }

  private static void add(ZMatrixRMaj matrix, int at, Complex c) {
    matrix.data[2 * at] += c.getRealPart();
    matrix.data[2 * at + 1] += c.getImaginaryPart();
  }

  Complex volts(int node) {
    return node == 0
        ? Complex.ZERO
        : new Complex(volts.data[2 * (node - 1)], volts.data[2 * (node - 1) + 1]);
  }

  Complex amps(Branch branch) {
    return volts(branch.a())
        .subtract(volts(branch.b()))
        .subtract(branch.volts())
        .divide(branch.ohms());
  }
}
