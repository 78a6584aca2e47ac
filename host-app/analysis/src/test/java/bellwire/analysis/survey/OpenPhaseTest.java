package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Kind;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

/** A cable on P1 to P5 whose far end hangs open, on a board that answers exactly. */
class OpenPhaseTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;

  private final List<Probe> asked = new ArrayList<>();

  private static IdealBoard board(Consumer<Network> copper) {
    double[] farads = new double[Ports.COUNT];
    Arrays.fill(farads, 15e-12);
    Arrays.fill(farads, 0, 5, 1.5e-9);
    return new IdealBoard(0, farads, copper);
  }

  private OpenPhase run(OpenPhase phase, Consumer<Network> copper, UnaryOperator<Reading> as) {
    IdealBoard board = board(copper);
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      asked.addAll(probes);
      phase.accept(board.measure(probes).stream().map(as).toList());
    }
    return phase;
  }

  private OpenResult open(Consumer<Network> copper) {
    return run(new OpenPhase(BOARD, Ports.ALL, 0), copper, r -> r).result();
  }

  private static UnaryOperator<Reading> times(int a, int b, double factor) {
    return r -> {
      Probe.Look look = r.probe().look();
      boolean pair = look.kind() == Kind.PAIR && look.a() == a && look.b() == b;
      return pair ? new Reading(r.probe(), factor * r.volts(), Double.NaN, false) : r;
    };
  }

  @Test
  void thereIsNoResultBeforeTheEnd() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    assertThatIllegalStateException().isThrownBy(phase::result);
    IdealBoard board = board(net -> net.join(0, 1, 0.1));
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      if (probes.stream().noneMatch(p -> p.pace() == Pace.WAVE)) { // the last part, the charges
        assertThatIllegalStateException()
            .isThrownBy(phase::result)
            .withMessage("the open phase is not over");
      }
      phase.accept(board.measure(probes));
    }
    assertThat(phase.result().ports()).containsExactly(0, 1, 2, 3, 4);
    assertThat(phase.next()).isEmpty();
  }

  /** 15 pF of stray capacitance, ±5 pF rectangular; 1.5 nF on each conductor. */
  @Test
  void aCableWhosePortsAreApart() {
    OpenResult open = open(net -> {});
    assertThat(open.clusters()).hasSize(5).allMatch(c -> c.size() == 1);
    assertThat(open.strayFarads().value()).isEqualTo(15e-12);
    assertThat(open.strayFarads().u()).isCloseTo(5e-12 / Math.sqrt(3), within(1e-18));
    assertThat(open.noiseFactor()).isEqualTo(1);
    assertThat(open.farads(2).value()).isCloseTo(1.5e-9, within(0.005e-9));
    assertThat(open.leaks()[1][1]).isEqualTo(new Leak(0, 0));
    assertThat(open.leaks()[1][2].detected()).isFalse();
    assertThat(open.leaks()[1][2].aboveOhms()).isGreaterThan(1e9);
    assertThat(open.distances()[0][1]).isNull();
    assertThat(open.network().between(0, 1)).isZero();
  }

  /** What the technician says is there counts, whatever is seen. */
  @Test
  void declaredPortsAreTakenAsPresent() {
    OpenPhase phase = new OpenPhase(BOARD, 0b11, Ports.bit(8) | Ports.bit(Ports.METAL));
    OpenResult open = run(phase, net -> {}, r -> r).result();
    assertThat(open.ports()).containsExactly(0, 1, 8, 16);
    assertThat(open.farads(8).value()).isLessThan(50e-12);
    assertThat(open.conductors()).containsExactly(0, 1, 8);
    assertThat(open.metalClipped()).isTrue();
  }

  /** Three bridges in a ring: as drawn, not as each pair's distance says. */
  @Test
  void aRingOfBridgesIsThatRing() {
    OpenResult open =
        open(net -> net.join(0, 1, 1 / 10.0).join(1, 2, 1 / 20.0).join(0, 2, 1 / 30.0));
    assertThat(open.distances()[0][1].value()).isCloseTo(10 * 50 / 60.0, within(1e-3));
    assertThat(open.distances()[1][0]).isEqualTo(open.distances()[0][1]);
    assertThat(1 / open.network().between(0, 1)).isCloseTo(10, within(0.01));
    assertThat(1 / open.network().between(1, 2)).isCloseTo(20, within(0.02));
    assertThat(1 / open.network().between(0, 2)).isCloseTo(30, within(0.03));
    assertThat(open.network().between(0, 3)).isZero();
  }

  /** Between clusters a leakage lies from the first port of one to the first of the other. */
  @Test
  void aClusterAndALeakageToIt() {
    OpenResult open = open(net -> net.join(0, 1, 1 / 0.5).join(1, 3, 1 / 100e3));
    assertThat(open.clusters()).hasSize(4);
    assertThat(1 / open.network().between(0, 3)).isCloseTo(100e3, within(100.0));
    assertThat(open.network().between(1, 3)).isZero();
    assertThat(1 / open.network().between(0, 1)).isCloseTo(0.5, within(1e-3));
  }

  /** 10 and 10 ohm leave at most 20 between the outer two: what reads as 500 is no network. */
  @Test
  void distancesThatNoNetworkHasLeaveThePortsJoined() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    OpenResult open =
        run(phase, net -> net.join(0, 1, 0.1).join(1, 2, 0.1), times(0, 2, 25)).result();
    assertThat(open.distances()[0][2].value()).isCloseTo(500, within(1.0));
    assertThat(open.clusters().get(0)).containsExactly(0, 1, 2);
    assertThat(open.network().between(0, 1)).isEqualTo(1e-3);
    assertThat(open.network().between(0, 2)).isEqualTo(1e-3);
    assertThat(open.network().between(1, 2)).isZero();
  }

  /** A pair of two whose reading overloaded touches by some 2 kohm at the most. */
  @Test
  void aPairWithoutAReadingIsJoinedAllTheSame() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    UnaryOperator<Reading> over =
        r ->
            r.probe().look().kind() == Kind.PAIR && r.probe().end() == End.LOW
                ? new Reading(r.probe(), 0, Double.NaN, true)
                : r;
    OpenResult open = run(phase, net -> net.join(0, 1, 0.1), over).result();
    assertThat(open.distances()[0][1]).isNull();
    assertThat(open.network().between(0, 1)).isCloseTo(1 / 2000.0, within(1e-9));
  }

  private static boolean rest(Probe probe) {
    return !probe.excite()
        && probe.drive() == 0
        && probe.settleMicros() == 16_000
        && probe.pace() == Pace.PRECISE;
  }

  /** The current through copper is gone at once. */
  @Test
  void copperNeedsNoRests() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    run(phase, net -> net.join(0, 1, 0.1), r -> r);
    assertThat(phase.restless()).isZero();
    assertThat(phase.windings()).isZero();
    assertThat(phase.slow()).isEqualTo(0b11);
    assertThat(asked.stream().filter(OpenPhaseTest::rest)).hasSize(2); // the search for windings
    assertThat(asked).noneMatch(p -> p.end() == End.SOFT);
  }

  /** What 5 kohm joins has not enough current to tell: it is rested, and read as usual. */
  @Test
  void whatMayHoldACurrentIsRested() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    OpenResult open = run(phase, net -> net.join(0, 1, 1 / 5000.0), r -> r).result();
    assertThat(phase.restless()).isEqualTo(0b11);
    assertThat(asked.stream().filter(OpenPhaseTest::rest)).hasSizeGreaterThan(4);
    assertThat(asked).noneMatch(p -> p.end() == End.SOFT);
    assertThat(open.leaks()[0][1].siemens()).isCloseTo(1 / 5000.0, within(1e-7));
  }

  private static Reading goingOn(Reading r) {
    Probe p = r.probe();
    boolean left = p.pace() == Pace.INSTANT && p.end() == End.LOW && !p.excite();
    return left ? new Reading(p, -0.1, Double.NaN, false) : r;
  }

  /** 16 ohm of a winding are read softly: 2 V by 1766 ohm, and the figure is still Ohm's. */
  @Test
  void aWindingIsReadSoftly() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0);
    OpenResult open = run(phase, net -> net.join(0, 1, 1 / 16.0), OpenPhaseTest::goingOn).result();
    assertThat(phase.windings()).isEqualTo(0b11);
    assertThat(phase.restless()).isEqualTo(0b11);
    assertThat(asked).anyMatch(p -> p.end() == End.SOFT);
    assertThat(open.distances()[0][1].value()).isCloseTo(16, within(0.01));
    assertThat(1 / open.network().between(0, 1)).isCloseTo(16, within(0.01));
  }

  /** A winding that is known is never left floating to be charged in search of copper. */
  @Test
  void aKnownWindingIsTakenAsSeen() {
    OpenPhase phase = new OpenPhase(BOARD, Ports.ALL, 0, 0b11);
    assertThat(phase.restless()).isEqualTo(0b11);
    List<Probe> first = phase.next();
    assertThat(first).noneMatch(p -> p.end() == End.CHECK_HIGH && (p.returned() & 0b11) != 0);
    OpenResult open = run(phase, net -> net.join(0, 1, 1 / 16.0), r -> r).result();
    assertThat(open.ports()).containsExactly(0, 1, 2, 3, 4);
    assertThat(phase.windings()).isEqualTo(0b11);
    assertThat(phase.slow()).isEqualTo(0b11);
    assertThat(asked).anyMatch(p -> p.end() == End.SOFT);
    OpenPhase copper = new OpenPhase(BOARD, Ports.ALL, 0);
    assertThat(copper.restless()).isZero();
  }
}
