package bellwire.analysis.circuit;

import bellwire.analysis.circuit.DrawnCircuit.Branch;
import org.hipparchus.complex.Complex;
import org.hipparchus.dfp.Dfp;
import org.hipparchus.dfp.DfpField;
import org.hipparchus.linear.Array2DRowFieldMatrix;
import org.hipparchus.linear.ArrayFieldVector;
import org.hipparchus.linear.FieldLUDecomposition;
import org.hipparchus.linear.FieldVector;

/**
 * Node voltages with 100 decimal digits: the textbook's nodal equations, real and imaginary parts
 * as twice as many real equations, by another library's elimination.
 */
final class ExactNodes {
  private static final DfpField FIELD = new DfpField(100);

  private final DrawnCircuit drawn;
  private final FieldVector<Dfp> volts;

  ExactNodes(DrawnCircuit drawn) {
    this.drawn = drawn;
    int n = drawn.nodes() - 1;
    Array2DRowFieldMatrix<Dfp> y = new Array2DRowFieldMatrix<>(FIELD, 2 * n, 2 * n);
    FieldVector<Dfp> j = new ArrayFieldVector<>(FIELD, 2 * n);
    for (Branch branch : drawn.branches()) {
      Dfp[] g = admittance(branch);
      Dfp[] inject = times(g, branch.volts());
      stamp(y, j, branch.a() - 1, branch.b() - 1, g, inject);
      stamp(
          y,
          j,
          branch.b() - 1,
          branch.a() - 1,
          g,
          new Dfp[] {inject[0].negate(), inject[1].negate()});
    }
    volts = new FieldLUDecomposition<>(y).getSolver().solve(j);
  }

  private static void stamp(
      Array2DRowFieldMatrix<Dfp> y, FieldVector<Dfp> j, int row, int other, Dfp[] g, Dfp[] inject) {
    if (row < 0) {
      return;
    }
    for (int part = 0; part < 2; part++) {
      Dfp re = part == 0 ? g[0] : g[1];
      Dfp im = part == 0 ? g[1].negate() : g[0];
      y.addToEntry(2 * row + part, 2 * row, re);
      y.addToEntry(2 * row + part, 2 * row + 1, im);
      if (other >= 0) {
        y.addToEntry(2 * row + part, 2 * other, re.negate());
        y.addToEntry(2 * row + part, 2 * other + 1, im.negate());
      }
      j.setEntry(2 * row + part, j.getEntry(2 * row + part).add(inject[part]));
    }
  }

  private static Dfp[] admittance(Branch branch) {
    Dfp r = FIELD.newDfp(branch.ohms().getRealPart());
    Dfp x = FIELD.newDfp(branch.ohms().getImaginaryPart());
    Dfp square = r.multiply(r).add(x.multiply(x));
    return new Dfp[] {r.divide(square), x.negate().divide(square)};
  }

  private static Dfp[] times(Dfp[] g, Complex c) {
    Dfp re = FIELD.newDfp(c.getRealPart());
    Dfp im = FIELD.newDfp(c.getImaginaryPart());
    return new Dfp[] {
      g[0].multiply(re).subtract(g[1].multiply(im)), g[0].multiply(im).add(g[1].multiply(re))
    };
  }

  private Dfp volts(int node, int part) {
    return node == 0 ? FIELD.getZero() : volts.getEntry(2 * (node - 1) + part);
  }

  Complex volts(int node) {
    return new Complex(volts(node, 0).toDouble(), volts(node, 1).toDouble());
  }

  /** From the branch's first to its second node. */
  Complex amps(int b) {
    Branch branch = drawn.branches().get(b);
    Dfp re =
        volts(branch.a(), 0).subtract(volts(branch.b(), 0)).subtract(branch.volts().getRealPart());
    Dfp im =
        volts(branch.a(), 1)
            .subtract(volts(branch.b(), 1))
            .subtract(branch.volts().getImaginaryPart());
    Dfp[] g = admittance(branch);
    return new Complex(
        g[0].multiply(re).subtract(g[1].multiply(im)).toDouble(),
        g[0].multiply(im).add(g[1].multiply(re)).toDouble());
  }
}
