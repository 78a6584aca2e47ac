package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Limits of a circuit, its tree, and voltages away from it. */
class CircuitPartsTest {
  private static final int MOST = 65_536;

  @Test
  void aCircuitHasAsManyNodesAsItCanHaveElements() {
    Circuit circuit = new Circuit(0);
    assertThatThrownBy(() -> circuit.resistance(0, 0, 1)).hasMessage("node=0");
    circuit.clear(MOST);
    circuit.source(0, MOST - 1, new Complex(27), new Complex(1.8));
    assertThat(circuit.solve().voltsRms(MOST - 1, 0)).isEqualTo(27);
    assertThatThrownBy(() -> circuit.clear(MOST + 1)).hasMessage("nodes=65537");
    assertThatThrownBy(() -> new Circuit(2).resistance(2, 0, 1)).hasMessage("node=2");
  }

  @Test
  void onlyAnElementHasACurrent() {
    Circuit circuit = new Circuit(2);
    circuit.resistance(0, 1, 1);
    Solution solution = circuit.solve();
    for (int none : new int[] {-1, 1}) {
      assertThatThrownBy(() -> solution.amps(none)).hasMessage("element=" + none);
      assertThatThrownBy(() -> solution.ampsRms(none)).hasMessage("element=" + none);
    }
  }

  /** 24 V behind 1 ohm on so many times 100 ohm side by side. */
  @Test
  void anyNumberOfLoadsIsFed() {
    Circuit circuit = new Circuit(2);
    for (int loads = 60; loads < 70; loads++) {
      circuit.clear(2);
      int source = circuit.source(0, 1, new Complex(24), Complex.ONE);
      for (int i = 0; i < loads; i++) {
        circuit.resistance(0, 1, 100);
      }
      assertThat(circuit.solve().ampsRms(source))
          .isCloseTo(24 / (1 + 100.0 / loads), within(1e-12));
    }
  }

  /** Theory (59): what closes a loop is its largest impedance, resistance or reactance. */
  @Test
  void aTreeIsOfTheLeastImpedances() {
    for (Complex unit : new Complex[] {Complex.ONE, Complex.I, new Complex(0.6, 0.8)}) {
      Circuit circuit = new Circuit(3);
      circuit.impedance(0, 1, unit.multiply(1000));
      circuit.impedance(1, 2, unit);
      circuit.impedance(2, 0, unit.multiply(0.001));
      SpanningForest forest = new SpanningForest();
      forest.grow(circuit);
      assertThat(Arrays.copyOf(forest.links, forest.linkCount)).containsExactly(0);
    }
  }

  /** Three equal parts of 30 V, a quarter of a period ahead. */
  @Test
  void voltagesBetweenAnyTwoNodes() {
    Circuit circuit = new Circuit(4);
    circuit.source(0, 3, new Complex(0, 30), Complex.ZERO);
    for (int n = 0; n < 3; n++) {
      circuit.resistance(n, n + 1, 100);
    }
    Solution solution = circuit.solve();
    for (int a = 0; a < 4; a++) {
      for (int b = 0; b < 4; b++) {
        Complex volts = solution.volts(a, b);
        assertThat(volts.getImaginaryPart()).isCloseTo(10 * (b - a), within(1e-12));
        assertThat(volts.getRealPart()).isCloseTo(0, within(1e-12));
        assertThat(solution.voltsRms(a, b)).isCloseTo(10 * Math.abs(b - a), within(1e-12));
      }
    }
  }

  /** Each with its own source over two loads in series, 27 V · 100/(8 + 100 + 27) = 20 V. */
  @Test
  void everyIslandHasItsVoltages() {
    Circuit circuit = new Circuit(9);
    for (int island = 0; island < 3; island++) {
      int first = 3 * island;
      circuit.source(first, first + 2, new Complex(27), new Complex(8));
      circuit.resistance(first, first + 1, 100);
      circuit.resistance(first + 1, first + 2, 27);
    }
    Solution solution = circuit.solve();
    for (int first = 0; first < 9; first += 3) {
      assertThat(solution.voltsRms(first, first + 1)).isCloseTo(20, within(1e-12));
      assertThat(solution.voltsRms(first + 1, first + 2)).isCloseTo(5.4, within(1e-12));
      assertThat(solution.volts(first, first + 2).getRealPart()).isCloseTo(25.4, within(1e-12));
    }
  }
}
