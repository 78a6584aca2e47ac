package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Circuits solved in textbooks; the tables name their sources. */
class CircuitExamplesTest {

  private static void near(Row row, String cell, double value) {
    assertThat(value).as(cell).isCloseTo(row.number(cell), within(0.51 * row.lastPlace(cell)));
  }

  private static void near(Row row, String cell, Complex value) {
    assertThat(new double[] {value.getRealPart(), value.getImaginaryPart()})
        .as(cell)
        .containsExactly(
            row.numbers(cell), within(0.51 * row.exacts(cell).get(0).ulp().doubleValue()));
  }

  /** Bird 31.09. */
  @Test
  void nodalDirectCurrent() {
    Row row = ReferenceTables.load("circuits/nodal-direct").only();
    double[][] branches = row.matrix("branches");
    Circuit circuit = new Circuit(4);
    for (int i = 0; i < branches.length; i++) {
      double volts = i == row.integer("sourceBranch") ? row.number("sourceVolts") : 0;
      circuit.source(
          (int) branches[i][0],
          (int) branches[i][1],
          new Complex(volts),
          new Complex(branches[i][2]));
    }
    Solution solution = circuit.solve();
    double[] nodes = row.numbers("nodeVolts");
    for (int n = 0; n < nodes.length; n++) {
      assertThat(solution.volts(n + 1, 0).getRealPart()).isCloseTo(nodes[n], within(5.1e-7));
    }
    assertThat(solution.volts(1, 0).getRealPart()).isCloseTo(240 / 197.0, within(1e-14));
    near(row, "amps2Ohm", solution.ampsRms(1));
    near(row, "watts3Ohm", 3 * Math.pow(solution.ampsRms(2), 2));
  }

  /** Bird 31.07. */
  @Test
  void nodalAlternatingCurrent() {
    Row row = ReferenceTables.load("circuits/nodal-alternating").only();
    Circuit circuit = new Circuit(3);
    circuit.source(1, 0, new Complex(25), new Complex(2));
    circuit.impedance(1, 0, new Complex(0, -4));
    int five = circuit.resistance(1, 2, 5);
    int inductor = circuit.impedance(2, 0, new Complex(0, 4));
    int source2 = circuit.source(2, 0, new Complex(0, 25), new Complex(2.5));
    Solution solution = circuit.solve();
    near(row, "node1Volts", solution.volts(1, 0));
    near(row, "node2Volts", solution.volts(2, 0));
    near(row, "ampsInductor", solution.amps(inductor));
    near(row, "amps5Ohm", solution.amps(five));
    near(row, "watts2_5Ohm", 2.5 * Math.pow(solution.ampsRms(source2), 2));
  }

  /**
   * Nilsson 4.4: three meshes of 2 + 8, 8 + 6 + 6 and 6 + 4 ohm, 40 V in the first, 20 V against.
   */
  @Test
  void threeMeshes() {
    Row row = ReferenceTables.load("circuits/linear-systems").rows().get(0);
    assertThat(row.text("example")).isEqualTo("Nilsson 4.4");
    double[][] m = row.matrix("matrix");
    double[] e = row.numbers("right");
    double shared12 = -m[0][1];
    double shared23 = -m[1][2];
    Circuit circuit = new Circuit(3);
    int first = circuit.source(1, 0, new Complex(e[0]), new Complex(m[0][0] - shared12));
    circuit.resistance(1, 0, shared12);
    int second = circuit.resistance(1, 2, m[1][1] - shared12 - shared23);
    circuit.resistance(2, 0, shared23);
    int third = circuit.source(2, 0, new Complex(-e[2]), new Complex(m[2][2] - shared23));
    Solution solution = circuit.solve();
    double[] amps = row.numbers("solution");
    assertThat(solution.amps(first).negate().getRealPart()).isCloseTo(amps[0], within(1e-14));
    assertThat(solution.amps(second).getRealPart()).isCloseTo(amps[1], within(1e-14));
    assertThat(solution.amps(third).getRealPart()).isCloseTo(amps[2], within(1e-14));
  }

  /**
   * Nilsson 4.5: its source of 15 times the 20 ohm branch's current is put in with the voltage that
   * the example's currents give it (substitution theorem); the circuit then repeats them.
   */
  @Test
  void dependentSource() {
    Row row = ReferenceTables.load("circuits/linear-systems").rows().get(1);
    assertThat(row.text("example")).isEqualTo("Nilsson 4.5");
    double[] amps = row.numbers("solution");
    double dependent = 15 * (amps[0] - amps[2]);
    Circuit circuit = new Circuit(4);
    int first = circuit.source(1, 0, new Complex(row.numbers("right")[0]), Complex.ZERO);
    circuit.resistance(1, 2, 5);
    circuit.resistance(2, 0, 20);
    int second = circuit.resistance(1, 3, 1);
    int four = circuit.resistance(2, 3, 4);
    int third = circuit.source(3, 0, new Complex(dependent), Complex.ZERO);
    Solution solution = circuit.solve();
    assertThat(solution.amps(first).negate().getRealPart()).isCloseTo(amps[0], within(1e-12));
    assertThat(solution.amps(second).getRealPart()).isCloseTo(amps[1], within(1e-12));
    assertThat(solution.amps(third).getRealPart()).isCloseTo(amps[2], within(1e-12));
    assertThat(4 * Math.pow(solution.ampsRms(four), 2))
        .isCloseTo(row.number("watts4Ohm"), within(1e-12));
  }
}
