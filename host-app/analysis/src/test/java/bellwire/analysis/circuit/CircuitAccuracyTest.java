package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What milliohms beside megohms cost: against 100 decimal digits, and against closed forms. */
class CircuitAccuracyTest {
  private static final int CIRCUITS = Integer.getInteger("bellwire.circuits", 60);
  private static final long SEED = Long.getLong("bellwire.seed", 15);

  @Test
  void drawnCircuits() {
    System.out.println("seed=" + SEED);
    double worst = 0;
    double worstNodal = 0;
    double worstVolts = 0;
    DenseNodes dense = new DenseNodes();
    for (int i = 0; i < CIRCUITS; i++) {
      DrawnCircuit drawn = DrawnCircuit.draw(SEED + 1000L * i, 5 + i % 8, 1 + i % 5);
      ExactNodes exact = new ExactNodes(drawn);
      Solution solution = drawn.circuit().solve();
      dense.solve(drawn);
      for (int e = 0; e < drawn.branches().size(); e++) {
        Complex truth = exact.amps(e);
        worst = Math.max(worst, error(solution.amps(e), truth));
        worstNodal = Math.max(worstNodal, error(dense.amps(drawn.branches().get(e)), truth));
      }
      for (int n = 1; n < drawn.nodes(); n++) {
        double off = solution.volts(n, 0).subtract(exact.volts(n)).norm();
        worstVolts = Math.max(worstVolts, off);
      }
    }
    System.out.printf(
        "%d circuits: currents %.1e, by nodal equations %.1e; volts %.1e%n",
        CIRCUITS, worst, worstNodal, worstVolts);
    assertThat(worst).isLessThan(1e-9);
    assertThat(worstVolts).isLessThan(1e-9);
  }

  /** Theory (64), whatever the impedances. */
  @Test
  void theDeterminantKeepsItsPromise() {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < 50 * CIRCUITS; i++) {
      Circuit circuit = DrawnCircuit.draw(SEED + i, 3 + i % 38, 1 + i % 15).circuit();
      circuit.solve();
      least = Math.min(least, circuit.margin());
    }
    System.out.printf("seeds from %d: least margin %.3f%n", SEED, least);
    assertThat(least).isGreaterThan(1 - 1e-12).isLessThan(2);
  }

  /** Where no current flows, what is left is rounding of the currents around it. */
  private static double error(Complex found, Complex truth) {
    return truth.norm() < 1e-20 ? found.norm() : found.subtract(truth).norm() / truth.norm();
  }
}
