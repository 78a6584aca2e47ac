package bellwire.simbench.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.simbench.FilterKernel;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Circuits whose answers are published or follow from a formula. */
class KnownCircuitsTest {
  private static final int COMMON = Netlist.COMMON;

  private static LinearSystem solve(int nodes, double[] omegas, Consumer<Netlist> circuit) {
    CapacitanceMatrix capacitance = new CapacitanceMatrix(nodes);
    circuit.accept(capacitance);
    int[] dynamic = capacitance.dynamicNodes();
    int[] all = IntStream.range(0, nodes).toArray();
    ConductanceGraph graph = new ConductanceGraph(all, nodes, omegas);
    circuit.accept(graph);
    int mark = graph.mark();
    for (int node : all) {
      if (IntStream.of(dynamic).noneMatch(d -> d == node)) {
        graph.eliminate(node);
      }
    }
    return new LinearSystem(graph, mark, dynamic, capacitance.cholesky(), all, nodes, omegas);
  }

  private static Solution fromZero(LinearSystem system) {
    return new Solution(system, 0, 0, new double[system.order()]);
  }

  /** Bird, Electrical Circuit Theory and Technology, problem 31.09 (nodal analysis). */
  @Test
  void nodalAnalysisOfThreeNodes() {
    LinearSystem system =
        solve(
            3,
            new double[0],
            net -> {
              net.emf(0, 2, 5, Drive.constant(8));
              net.capacitor(0, COMMON, 1e-9);
              net.resistor(0, 1, 1);
              net.resistor(1, COMMON, 2);
              net.resistor(1, 2, 3);
              net.resistor(2, COMMON, 4);
              net.resistor(0, COMMON, 6);
            });
    Solution rest = fromZero(system);
    assertThat(rest.restVolts(Probe.node(0))).isCloseTo(240.0 / 197, within(1e-9));
    assertThat(rest.restVolts(Probe.node(1))).isCloseTo(224.0 / 591, within(1e-9));
    assertThat(rest.restVolts(Probe.node(2))).isCloseTo(-928.0 / 591, within(1e-9));
  }

  /** Bird, problem 17.01: 15 µF through 47 kΩ from 120 V; τ 0.705 s, half value at 0.4887 s. */
  @Test
  void chargingCapacitor() {
    LinearSystem system =
        solve(
            1,
            new double[0],
            net -> {
              net.emf(0, COMMON, 47e3, Drive.constant(120));
              net.capacitor(0, COMMON, 15e-6);
            });
    Solution step = fromZero(system);
    assertThat(step.volts(Probe.node(0), 705_000_000L)).isCloseTo(75.85, within(0.005));
    assertThat(step.volts(Probe.node(0), 488_700_000L)).isCloseTo(60, within(0.005));
  }

  /** Bird, problem 17.03: 20 µF, 50 kΩ, 20 V; v(2 s) 17.293 V. */
  @Test
  void chargingCapacitorAtTwiceItsTimeConstant() {
    LinearSystem system =
        solve(
            1,
            new double[0],
            net -> {
              net.emf(0, COMMON, 50e3, Drive.constant(20));
              net.capacitor(0, COMMON, 20e-6);
            });
    assertThat(fromZero(system).volts(Probe.node(0), 2_000_000_000L))
        .isCloseTo(17.293, within(5e-4));
  }

  /** A coil at a source, a capacitor beside it. */
  private static InductiveSystem coil(
      double ohms, double henries, double sourceOhms, double farads, Drive drive) {
    CapacitanceMatrix capacitance = new CapacitanceMatrix(1);
    capacitance.capacitor(0, COMMON, farads);
    ConductanceGraph graph = new ConductanceGraph(new int[] {0}, 1, new double[] {377});
    graph.emf(0, COMMON, sourceOhms, drive);
    return new InductiveSystem(
        graph,
        0,
        new int[] {0},
        capacitance.cholesky(),
        List.of(new Inductor(0, COMMON, ohms, henries, true)),
        new int[] {0},
        1,
        new double[] {377});
  }

  /**
   * Bird, chapter 17, from memory: 0.04 H and 10 ohm on 120 V go to 12 A with τ = 4 ms; 7.585 A at
   * τ, 6 A at τ ln 2. The source has 1 mohm of the ten ohm.
   */
  @Test
  void currentGrowsInACoil() {
    Solution step =
        new Solution(coil(9.999, 0.04, 0.001, 1e-12, Drive.excitation(120)), 1, 0, new double[2]);
    assertThat(step.state(4_000_000)[1]).isCloseTo(7.585, within(1e-3));
    assertThat(step.state(2_772_589)[1]).isCloseTo(6, within(1e-3));
    assertThat(step.state(400_000_000)[1]).isCloseTo(12, within(1e-6));
  }

  /** 10 V at 377 rad/s on 10 ohm and 0.04 H: I = V/(R + jωH), R part V·R/(R² + (ωH)²). */
  @Test
  void currentOfACoilAtATone() {
    double amps = coil(9.999, 0.04, 0.001, 1e-12, Drive.sine(0, 10, 0)).forced(0, 0)[1];
    double reactance = 377 * 0.04;
    assertThat(amps).isCloseTo(100 / (100 + reactance * reactance), within(1e-6));
  }

  /**
   * A charged capacitor on a coil rings with ω = √(1/LC − (R/2L)²) and dies with R/2L: 1 µF on 0.25
   * H and 16 ohm, the quadratic's own roots.
   */
  @Test
  void capacitorAndCoilRing() {
    InductiveSystem system = coil(16, 0.25, 1e9, 1e-6, Drive.constant(0));
    Solution ring = new Solution(system, 0, 0, new double[] {1, 0});
    double decay = 16 / (2 * 0.25);
    double omega = Math.sqrt(1 / (0.25 * 1e-6) - decay * decay);
    for (long nanos : new long[] {0, 100_000, 1_234_567, 7_000_000}) {
      double t = nanos * 1e-9;
      double expected =
          Math.exp(-decay * t) * (Math.cos(omega * t) + decay / omega * Math.sin(omega * t));
      assertThat(ring.volts(Probe.node(0), nanos)).isCloseTo(expected, within(1e-5));
      Solution.Bounds bounds = ring.bounds(Probe.node(0), nanos, nanos + 300_000);
      for (int i = 0; i <= 10; i++) {
        assertThat(ring.volts(Probe.node(0), nanos + 30_000 * i))
            .isBetween(bounds.low() - 1e-12, bounds.high() + 1e-12);
      }
    }
    FilterKernel filter = new FilterKernel(new long[] {300_000, 500_000});
    double sum = 0;
    int n = 400;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        sum += ring.voltsAt(Probe.node(0), 1e-4 + ((i + 0.5) * 3e-4 + (j + 0.5) * 5e-4) / n);
      }
    }
    assertThat(ring.filtered(Probe.node(0), filter, 100_000)).isCloseTo(sum / n / n, within(1e-5));
  }

  /** A Wheatstone bridge in balance shows nothing across, however its detector loads it. */
  @Test
  void balancedBridge() {
    LinearSystem system =
        solve(
            3,
            new double[0],
            net -> {
              net.emf(0, COMMON, 1, Drive.constant(10));
              net.capacitor(0, COMMON, 1e-9);
              net.resistor(0, 1, 100);
              net.resistor(1, COMMON, 300);
              net.resistor(0, 2, 50);
              net.resistor(2, COMMON, 150);
              net.resistor(1, 2, 7);
            });
    // What is left comes from the 1e-13 S on every node.
    assertThat(fromZero(system).restVolts(new Probe(1, 1, 2, -1, 0))).isCloseTo(0, within(1e-11));
  }

  /** A star of 1, 2 and 3 ohm is a delta of 11/3, 11/2 and 11 ohm (R1R2 + R2R3 + R3R1 = 11). */
  @Test
  void starIsDelta() {
    int[] all = {0, 1, 2, 3};
    ConductanceGraph graph = new ConductanceGraph(all, 4, new double[0]);
    graph.resistor(3, 0, 1);
    graph.resistor(3, 1, 2);
    graph.resistor(3, 2, 3);
    graph.eliminate(3);
    double[][] matrix = graph.matrix(new int[] {0, 1, 2});
    assertThat(-1 / matrix[0][1]).isCloseTo(11.0 / 3, within(1e-11));
    assertThat(-1 / matrix[0][2]).isCloseTo(11.0 / 2, within(1e-11));
    assertThat(-1 / matrix[1][2]).isCloseTo(11.0, within(1e-10));
  }

  @Test
  void aPicosiemensBesideAKilosiemensSurvivesTheReduction() {
    ConductanceGraph graph = new ConductanceGraph(new int[] {0, 1, 2}, 3, new double[0]);
    graph.resistor(0, 1, 1e-3);
    graph.resistor(1, 2, 1e12);
    graph.eliminate(1);
    double[][] matrix = graph.matrix(new int[] {0, 2});
    assertThat(-matrix[0][1]).isCloseTo(1e-12, within(1e-18));
  }

  /** A low pass at its corner: 1/√2 and −45°. */
  @Test
  void lowPassAtItsCorner() {
    double omega = 377;
    double farads = 1 / (omega * 1000);
    LinearSystem system =
        solve(
            1,
            new double[] {omega},
            net -> {
              net.emf(0, COMMON, 1000, Drive.sine(0, 1, 0));
              net.capacitor(0, COMMON, farads);
            });
    double[] tone = fromZero(system).toneVolts(Probe.node(0), 0);
    assertThat(tone[0]).isCloseTo(0.5, within(1e-9));
    assertThat(tone[1]).isCloseTo(-0.5, within(1e-9));
  }

  /** A capacitive divider from a source: C1/(C1 + C2), where the resistor hardly loads it. */
  @Test
  void couplingCapacitorDivides() {
    LinearSystem system =
        solve(
            1,
            new double[] {1e6},
            net -> {
              net.coupling(0, COMMON, 1e-9, Drive.sine(0, 10, 0.3));
              net.capacitor(0, COMMON, 3e-9);
              net.resistor(0, COMMON, 1e9);
            });
    double[] tone = fromZero(system).toneVolts(Probe.node(0), 0);
    assertThat(Math.hypot(tone[0], tone[1])).isCloseTo(2.5, within(1e-6));
    assertThat(Math.atan2(tone[1], tone[0])).isCloseTo(0.3, within(1e-6));
  }

  /**
   * Means over 50 ms and over 16.67 ms average away 60 Hz; what is left is the frequency's error.
   */
  @Test
  void movingAveragesOverWholeCyclesRejectHum() {
    double omega = 2 * Math.PI * 60 * 1.001;
    LinearSystem system =
        solve(
            1,
            new double[] {omega},
            net -> {
              net.emf(0, COMMON, 1, Drive.sine(0, 1, 0));
              net.capacitor(0, COMMON, 1e-12);
            });
    Solution settled = fromZero(system);
    FilterKernel one = new FilterKernel(new long[] {50_000_000});
    FilterKernel two = new FilterKernel(new long[] {50_000_000, 16_666_667});
    double worstOne = 0;
    double worstTwo = 0;
    for (long start = 1_000_000_000L; start < 1_020_000_000L; start += 500_000) {
      worstOne = Math.max(worstOne, Math.abs(settled.filtered(Probe.node(0), one, start)));
      worstTwo = Math.max(worstTwo, Math.abs(settled.filtered(Probe.node(0), two, start)));
    }
    // sin(x)/x near x = 3π and π, 0.1 % beside the zero: 1e-3, twice over 1e-6.
    assertThat(worstOne).isCloseTo(1.0e-3, within(5e-5));
    assertThat(worstTwo).isCloseTo(1.0e-6, within(1e-7));
  }

  /** The exact response against plain numerical averaging, in the middle of a transient. */
  @Test
  void filteredTransientIsTheWeightedMean() {
    LinearSystem system = twoTimeConstants();
    Solution step = fromZero(system);
    FilterKernel filter = new FilterKernel(new long[] {300_000, 500_000});
    double exact = step.filtered(Probe.node(1), filter, 100_000);
    int n = 1000;
    double sum = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double nanos = (i + 0.5) / n * 300_000 + (j + 0.5) / n * 500_000;
        sum += step.voltsAt(Probe.node(1), 1e-4 + nanos * 1e-9);
      }
    }
    assertThat(exact).isCloseTo(sum / n / n, within(1e-6));
  }

  @Test
  void quadratureAgreesWithTheExactResponse() {
    LinearSystem system = twoTimeConstants();
    Solution step = fromZero(system);
    // The same solution, cut in two where nothing happens.
    Solution again = new Solution(system, 0, 350_000, step.state(350_000));
    FilterKernel filter = new FilterKernel(new long[] {300_000, 500_000, 120_000});
    double exact = step.filtered(Probe.node(1), filter, 0);
    double pieces =
        new WindowQuadrature(filter, 0)
            .integrate(List.of(step, again), List.of(Probe.node(1), Probe.node(1)));
    assertThat(pieces).isCloseTo(exact, within(1e-9));
  }

  private static LinearSystem twoTimeConstants() {
    return solve(
        2,
        new double[] {3000},
        net -> {
          net.emf(0, COMMON, 100, Drive.constant(1));
          net.capacitor(0, COMMON, 1e-6);
          net.emf(0, 1, 1000, Drive.sine(0, 0.2, 1));
          net.capacitor(1, COMMON, 0.3e-6);
          net.capacitor(0, 1, 0.1e-6);
        });
  }

  @Test
  void boundsHoldAndTighten() {
    Solution step = fromZero(twoTimeConstants());
    for (long from = 0; from < 3_000_000; from += 100_000) {
      for (long width : new long[] {1000, 50_000, 700_000}) {
        Solution.Bounds bounds = step.bounds(Probe.node(1), from, from + width);
        for (int i = 0; i <= 20; i++) {
          double volts = step.volts(Probe.node(1), from + width * i / 20);
          assertThat(volts).isBetween(bounds.low() - 1e-12, bounds.high() + 1e-12);
        }
        if (width == 1000) {
          assertThat(bounds.high() - bounds.low()).isLessThan(0.02);
        }
      }
    }
  }
}
