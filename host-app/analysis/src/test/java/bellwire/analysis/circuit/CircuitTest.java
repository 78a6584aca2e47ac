package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Islands, shorts, and circuits that have no solution. */
class CircuitTest {
  private static final Complex VOLTS = new Complex(27);

  @Test
  void islandsHaveNoVoltageBetweenThem() {
    Circuit circuit = new Circuit(6);
    circuit.source(4, 1, VOLTS, new Complex(1));
    int load = circuit.resistance(4, 1, 26);
    int dead = circuit.resistance(0, 5, 10);
    Solution solution = circuit.solve();
    assertThat(solution.volts(4, 1).getRealPart()).isCloseTo(26, within(1e-13));
    assertThat(solution.joined(4, 1)).isTrue();
    assertThat(solution.joined(4, 0)).isFalse();
    assertThat(solution.volts(4, 0).isNaN()).isTrue();
    assertThat(solution.voltsRms(3, 0)).isNaN();
    assertThat(solution.voltsRms(3, 3)).isZero();
    assertThat(solution.ampsRms(load)).isCloseTo(1, within(1e-14));
    assertThat(solution.ampsRms(dead)).isZero();
    assertThat(solution.volts(5, 0)).isEqualTo(Complex.ZERO);
  }

  /** Two supplies with their hot ends joined, their commons apart: nothing flows at all. */
  @Test
  void whatHasNoWayBackCarriesNothing() {
    Circuit circuit = new Circuit(4);
    int one = circuit.source(0, 1, VOLTS, new Complex(1.8));
    int other = circuit.source(2, 3, VOLTS.negate(), new Complex(1.8));
    circuit.resistance(0, 2, 0.01);
    Solution solution = circuit.solve();
    assertThat(solution.amps(one)).isEqualTo(Complex.ZERO);
    assertThat(solution.amps(other)).isEqualTo(Complex.ZERO);
    assertThat(solution.voltsRms(1, 3)).isCloseTo(54, within(1e-13));
  }

  /** A short of no ohms at all is a short. */
  @Test
  void zeroOhms() {
    Circuit circuit = new Circuit(3);
    int source = circuit.source(0, 1, VOLTS, new Complex(0.9, 1.2));
    int jumper = circuit.impedance(0, 2, Complex.ZERO);
    int shorting = circuit.impedance(2, 1, Complex.ZERO);
    int load = circuit.resistance(0, 1, 100);
    Solution solution = circuit.solve();
    assertThat(solution.ampsRms(shorting)).isCloseTo(27 / 1.5, within(1e-13));
    assertThat(solution.ampsRms(source)).isCloseTo(27 / 1.5, within(1e-13));
    assertThat(solution.ampsRms(jumper)).isCloseTo(27 / 1.5, within(1e-13));
    assertThat(solution.ampsRms(load)).isZero();
  }

  /** 27 V, a milliohm, ten megohms, once more a milliohm: nanovolts across the contacts. */
  @Test
  void contactsBeforeALeak() {
    Circuit circuit = new Circuit(4);
    circuit.source(0, 3, VOLTS, new Complex(1));
    int contact = circuit.resistance(0, 1, 1e-3);
    int leak = circuit.resistance(1, 2, 1e7);
    circuit.resistance(2, 3, 1e-3);
    int load = circuit.resistance(0, 3, 1000);
    Solution solution = circuit.solve();
    double rest = 1e7 + 2e-3;
    double parallel = 1000 * rest / (1000 + rest);
    double volts = 27 * parallel / (1 + parallel);
    assertThat(solution.ampsRms(contact)).isCloseTo(volts / rest, within(1e-14 * volts / rest));
    assertThat(solution.ampsRms(leak)).isCloseTo(volts / rest, within(1e-14 * volts / rest));
    assertThat(solution.ampsRms(load)).isCloseTo(volts / 1000, within(1e-14 * volts / 1000));
  }

  /** An element on one node alone; two in parallel; added to after it was solved. */
  @Test
  void oddElements() {
    Circuit circuit = new Circuit(2);
    int loop = circuit.source(1, 1, new Complex(0, 10), new Complex(4, 3));
    assertThat(circuit.solve().ampsRms(loop)).isCloseTo(2, within(1e-15));
    circuit.source(0, 1, new Complex(10), new Complex(10));
    circuit.resistance(1, 0, 20);
    circuit.resistance(0, 1, 20);
    Solution solution = circuit.solve();
    assertThat(solution.volts(0, 1).getRealPart()).isCloseTo(5, within(1e-14));
    assertThat(solution.amps(2).getRealPart()).isCloseTo(-0.25, within(1e-15));
    assertThat(solution.amps(3).getRealPart()).isCloseTo(0.25, within(1e-15));
    assertThat(solution.ampsRms(loop)).isCloseTo(2, within(1e-15));
    circuit.clear(1);
    assertThatThrownBy(() -> circuit.resistance(0, 1, 1)).hasMessage("node=1");
    assertThatThrownBy(() -> circuit.solve().amps(0)).hasMessage("element=0");
    assertThat(solution.amps(3).getRealPart()).isCloseTo(0.25, within(1e-15));
  }

  @Test
  void aLoopOfZeroOhmsIsRefused() {
    Circuit circuit = new Circuit(2);
    circuit.source(0, 1, VOLTS, Complex.ZERO);
    circuit.impedance(0, 1, Complex.ZERO);
    assertThatThrownBy(circuit::solve)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("loop of zero ohms: element=1");
  }

  /** Reactances that cancel one another all but a 1e-12th. */
  @Test
  void resonanceIsRefused() {
    Circuit circuit = new Circuit(3);
    circuit.source(0, 1, VOLTS, new Complex(0, 100));
    circuit.impedance(0, 1, new Complex(1e-10, -100));
    assertThatThrownBy(circuit::solve)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("margin=");
    circuit.clear(3);
    int a = circuit.source(0, 1, VOLTS, new Complex(0, 100));
    circuit.impedance(0, 1, new Complex(1, -100));
    assertThat(circuit.solve().ampsRms(a)).isCloseTo(27, within(1e-12));
  }

  @Test
  void mistakesOfTheCaller() {
    Circuit circuit = new Circuit(2);
    assertThatThrownBy(() -> circuit.resistance(0, 2, 1)).hasMessage("node=2");
    assertThatThrownBy(() -> circuit.resistance(-1, 0, 1)).hasMessage("node=-1");
    assertThatThrownBy(() -> circuit.resistance(0, 1, Double.POSITIVE_INFINITY))
        .hasMessageContaining("ohms=");
    assertThatThrownBy(() -> circuit.source(0, 1, Complex.NaN, Complex.ONE))
        .hasMessageContaining("openVolts=");
    assertThatThrownBy(() -> new Circuit(-1)).hasMessage("nodes=-1");
    for (int i = 0; i < 1 << SpanningForest.INDEX_BITS; i++) {
      circuit.resistance(0, 1, 1);
    }
    assertThatThrownBy(() -> circuit.resistance(0, 1, 1)).hasMessage("element=65536");
  }

  /**
   * One circuit for all, larger and smaller in turn: a hundred loads of 100 ohm on 24 V behind 1
   * ohm take 12 A; a chain of 149 times 2 ohm on 30 V behind 2 ohm carries 0.1 A.
   */
  @Test
  void aClearedCircuitIsAsGoodAsANewOne() {
    Circuit circuit = new Circuit(2);
    for (int round = 0; round < 2; round++) {
      circuit.clear(2);
      int source = circuit.source(0, 1, new Complex(24), Complex.ONE);
      for (int load = 0; load < 100; load++) {
        circuit.resistance(load % 2, 1 - load % 2, 100);
      }
      Solution loads = circuit.solve();
      assertThat(loads.ampsRms(source)).isCloseTo(12, within(1e-12));
      assertThat(loads.amps(1).getRealPart()).isCloseTo(0.12, within(1e-14));
      assertThat(loads.amps(100).getRealPart()).isCloseTo(-0.12, within(1e-14));
      circuit.clear(150);
      circuit.source(0, 149, new Complex(30), new Complex(2));
      for (int n = 0; n < 149; n++) {
        circuit.resistance(n, n + 1, 2);
      }
      Solution chain = circuit.solve();
      assertThat(chain.amps(75).getRealPart()).isCloseTo(0.1, within(1e-14));
      assertThat(chain.volts(100, 149).getRealPart()).isCloseTo(49 * 0.2, within(1e-12));
      assertThat(loads.ampsRms(source)).as("the earlier solution").isCloseTo(12, within(1e-12));
      circuit.clear(2);
      circuit.source(1, 0, new Complex(0, 10), new Complex(3, 4));
      assertThat(circuit.solve().volts(1, 0)).isEqualTo(new Complex(0, 10));
    }
  }

  /** Two meshes of 80 that share one element: each loop goes round a long way. */
  @Test
  void longLoopsShareWhatTheyShare() {
    Circuit circuit = new Circuit(160);
    int shared = circuit.resistance(0, 1, 50);
    for (int side = 0; side < 2; side++) {
      int from = 1;
      for (int k = 0; k < 79; k++) {
        int to = 2 + 79 * side + k;
        circuit.resistance(k % 2 == 0 ? from : to, k % 2 == 0 ? to : from, 1);
        from = to;
      }
      circuit.source(from, 0, new Complex(side == 0 ? 180 : 0), new Complex(21));
    }
    // 180 V behind 100 ohm on 50 and 100 ohm side by side: a third of 180/(100 + 33.3) A.
    double amps = 180 / (100 + 100 / 3.0);
    Solution solution = circuit.solve();
    assertThat(solution.ampsRms(shared)).isCloseTo(amps * 2 / 3, within(1e-12));
    assertThat(solution.ampsRms(80)).isCloseTo(amps, within(1e-12));
    assertThat(solution.ampsRms(160)).isCloseTo(amps / 3, within(1e-12));
    assertThat(solution.voltsRms(1, 0)).isCloseTo(amps * 100 / 3, within(1e-10));
  }
}
