package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.inside;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.reference.ReferenceTables;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Loops small enough to be worked out by hand; each expectation is that working. */
class SimulationTest {
  private static final double EXACT = 1e-9;
  private static final double FOOT = 0.3048;
  private static final double CONTACT_OHMS = 0.1;

  /** Falls from 27 V to 24 V under its rated 40/24 A: 3 V / (40/24 A) = 1.8 ohm. */
  private static final Transformer SUPPLY =
      new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);

  private static final double SUPPLY_OHMS = 1.8;

  private static Load load(String name, Point a, Point b, Complex inrush, Complex holding) {
    return new Load(name, a, b, Kind.RELAY, inrush, holding, 18, 8, 30, Role.HEAT, 1);
  }

  private static Load resistor(String name, Point a, Point b, double ohms) {
    return load(name, a, b, new Complex(ohms), new Complex(ohms));
  }

  /** R and W to a control that closes one to the other. */
  private static Installation heat(double conductorOhms, Element... elements) {
    return SampleLoops.landed(
        equipment(elements),
        SampleControls.heatOnly(SampleControls.battery()),
        Map.of(),
        "red:R:R white:W:W",
        conductorOhms);
  }

  private static Equipment equipment(Element... elements) {
    return new Equipment("tiny", List.of("R", "W", "C"), List.of(elements), Map.of());
  }

  private static StateResult in(Installation installation, Call call) {
    return new Simulation(installation).state(state(installation, call));
  }

  private static Control.State state(Installation installation, Call call) {
    List<Control.State> states = installation.control().states();
    return states.stream().filter(s -> s.call() == call).findFirst().orElseThrow();
  }

  private static LoadResult load(StateResult result, String name) {
    return result.loads().stream()
        .filter(l -> l.load().name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** Ohm per metre at 20 °C as printed in Floyd's table (copper.yaml). */
  private static double ohmsPerMetre(int awg) {
    return ReferenceTables.load("copper/solid-20-celsius")
            .row("awg", String.valueOf(awg))
            .number("ohmsPerThousandFeet")
        / (1000 * FOOT);
  }

  @Test
  void aResistiveLoadGetsItsShareOfTheOpenVoltage() {
    double conductor = 50 * ohmsPerMetre(18);
    StateResult result =
        in(heat(conductor, SUPPLY, resistor("relay", near("W"), near("C"), 100)), Call.HEAT_1);
    double amps = 27 / (SUPPLY_OHMS + 2 * conductor + CONTACT_OHMS + 100);
    assertThat(load(result, "relay").volts()).isCloseTo(100 * amps, within(EXACT));
    assertThat(load(result, "relay").amps()).isCloseTo(amps, within(EXACT));
    assertThat(result.transformers().get(0).amps()).isCloseTo(amps, within(EXACT));
    assertThat(result.transformers().get(0).voltAmperes()).isCloseTo(27 * amps, within(EXACT));
    assertThat(load(result, "relay").energised()).isEqualTo(Energised.ON);
    assertThat(result.controlVolts()).isNaN();
  }

  @Test
  void atRestNothingFlows() {
    StateResult result =
        in(heat(1, SUPPLY, resistor("relay", near("W"), near("C"), 100)), Call.NONE);
    assertThat(load(result, "relay").volts()).isZero();
    assertThat(load(result, "relay").energised()).isEqualTo(Energised.OFF);
    assertThat(result.transformers().get(0).amps()).isZero();
  }

  /** The drop under the inrush decides; the coil would hold. */
  @Test
  void longThinCableKeepsAContactorFromPullingIn() {
    Complex inrush = new Complex(6.3, 8.4);
    Complex holding = new Complex(29, 66);
    for (int awg : new int[] {18, 24}) {
      double conductor = 60 * ohmsPerMetre(awg);
      Load contactor = load("contactor", near("W"), near("C"), inrush, holding);
      LoadResult result = load(in(heat(conductor, SUPPLY, contactor), Call.HEAT_1), "contactor");
      double series = SUPPLY_OHMS + 2 * conductor + CONTACT_OHMS;
      double open = 27 * inrush.norm() / inrush.add(series).norm();
      double pulledIn = 27 * holding.norm() / holding.add(series).norm();
      assertThat(open > 18).isEqualTo(awg == 18);
      assertThat(result.volts()).isCloseTo(awg == 18 ? pulledIn : open, within(EXACT));
      assertThat(result.energised()).isEqualTo(awg == 18 ? Energised.ON : Energised.DOUBTFUL);
      assertThat(result.held()).isTrue();
    }
  }

  @Test
  void aRelayFedThroughItsOwnContactChatters() {
    StateResult result =
        in(
            heat(
                0.5,
                SUPPLY,
                new Contact("own contact", near("W"), inside("lead"), "relay", false),
                resistor("relay", inside("lead"), near("C"), 100),
                resistor("other relay", near("W"), near("C"), 100)),
            Call.HEAT_1);
    assertThat(result.settled()).isFalse();
    assertThat(load(result, "relay").energised()).isEqualTo(Energised.CHATTERS);
    assertThat(load(result, "relay").held()).isFalse();
    assertThat(load(result, "other relay").held()).isTrue();
    assertThat(load(result, "other relay").energised()).isEqualTo(Energised.ON);
  }

  /** Moved at once both would go in and out for ever; one is always first. */
  @Test
  void ofTwoRelaysThatShutEachOtherOutOneComesToRest() {
    StateResult result =
        in(
            heat(
                0.5,
                SUPPLY,
                new Contact("contact of B", near("W"), inside("A's lead"), "B", false),
                new Contact("contact of A", near("W"), inside("B's lead"), "A", false),
                resistor("A", inside("A's lead"), near("C"), 100),
                resistor("B", inside("B's lead"), near("C"), 100)),
            Call.HEAT_1);
    assertThat(result.settled()).isTrue();
    assertThat(result.loads())
        .extracting(LoadResult::energised)
        .containsExactlyInAnyOrder(Energised.ON, Energised.OFF);
  }

  /** The call ends, but a leak from R feeds more than the coil needs to stay in. */
  @Test
  void aLeakHoldsALoadThatItCouldNotPullIn() {
    Complex holding = new Complex(60, 80);
    Load relay = load("relay", near("W"), near("C"), new Complex(40, 30), holding);
    Installation installation =
        heat(0.5, SUPPLY, relay, new Wire("leak", near("R"), near("W"), 100));
    LoadResult rest = load(in(installation, Call.NONE), "relay");
    double open = 27 * 50 / Math.hypot(40 + 100 + SUPPLY_OHMS, 30);
    double held = 27 * 100 / Math.hypot(60 + 100 + SUPPLY_OHMS, 80);
    assertThat(open).isBetween(8.0, 18.0);
    assertThat(held).isBetween(8.0, 18.0);
    assertThat(rest.volts()).isCloseTo(open, within(EXACT));
    assertThat(rest.energised()).isEqualTo(Energised.DOUBTFUL);
    assertThat(rest.held()).isTrue();
    Installation weaker = heat(0.5, SUPPLY, relay, new Wire("leak", near("R"), near("W"), 1000));
    assertThat(load(in(weaker, Call.NONE), "relay").held()).isFalse();
    assertThat(load(in(weaker, Call.NONE), "relay").energised()).isEqualTo(Energised.OFF);
  }

  @Test
  void twoConductorsUnderOneClampShareTheCurrent() {
    Installation installation =
        SampleLoops.landed(
            equipment(SUPPLY, resistor("relay", near("W"), near("C"), 100)),
            SampleControls.heatOnly(SampleControls.battery()),
            Map.of(),
            "red:R:R black:R:R white:W:W",
            4);
    double amps = 27 / (SUPPLY_OHMS + 2 + 4 + CONTACT_OHMS + 100);
    assertThat(load(in(installation, Call.HEAT_1), "relay").amps()).isCloseTo(amps, within(EXACT));
  }

  @Test
  void aFuseOpensByWhatAShortDraws() {
    double cold = 0.09 / 3;
    Transformer behind =
        new Transformer("transformer", inside("hot"), near("C"), 27, 24, 40, 0, 0, 0);
    Installation installation =
        heat(
            0.5,
            behind,
            new Fuse("fuse", inside("hot"), near("R"), FuseKind.BLADE, 3),
            resistor("relay", near("R"), near("C"), 100),
            new Wire("short", near("W"), near("C"), 0.05));
    Simulation simulation = new Simulation(installation);
    Control.State calling = state(installation, Call.HEAT_1);
    StateResult before = simulation.state(calling);
    double shorted = 0.5 + CONTACT_OHMS + 0.5 + 0.05;
    double amps = 27 / (SUPPLY_OHMS + cold + 1 / (1 / shorted + 0.01));
    assertThat(before.fuses().get(0).amps()).isCloseTo(amps, within(EXACT));
    assertThat(before.fuses().get(0).opens()).isEqualTo(FuseKind.BLADE.opening(3, amps));
    assertThat(before.transformers().get(0).overloaded()).isTrue();
    assertThat(simulation.opening(calling)).containsExactly("fuse");
    StateResult after = simulation.afterFuses(calling);
    assertThat(after.fuses().get(0).amps()).isZero();
    assertThat(after.transformers().get(0).amps()).isZero();
    assertThat(after.loads().get(0).energised()).isEqualTo(Energised.OFF);
    assertThat(simulation.volts(calling, near("R"), near("C"))).isZero();
    assertThat(simulation.volts(state(installation, Call.NONE), near("R"), near("C")))
        .isCloseTo(27 * 100 / (100 + SUPPLY_OHMS + cold), within(EXACT));
  }

  /** 1.2 times the rating: it may open after hours, or never. */
  @Test
  void aFuseThatOnlyMayOpenIsLeftClosed() {
    Transformer behind =
        new Transformer("transformer", inside("hot"), near("C"), 27, 24, 40, 0, 0, 0);
    double ohms = 27 / 3.6 - SUPPLY_OHMS - 0.09 / 3;
    Installation installation =
        heat(
            0.5,
            behind,
            new Fuse("fuse", inside("hot"), near("R"), FuseKind.BLADE, 3),
            new Wire("short", near("R"), near("C"), ohms));
    Simulation simulation = new Simulation(installation);
    Control.State rest = state(installation, Call.NONE);
    assertThat(simulation.state(rest).fuses().get(0).amps()).isCloseTo(3.6, within(EXACT));
    assertThat(simulation.state(rest).fuses().get(0).opens().possible()).isTrue();
    assertThat(simulation.opening(rest)).isEmpty();
    assertThat(simulation.afterFuses(rest).fuses().get(0).amps()).isCloseTo(3.6, within(EXACT));
  }

  /** The transformer's own resistance and 10 ohm of copper leave less than the fuse carries. */
  @Test
  void aShortAtTheEndOfALongThinCableOpensNoFuse() {
    Transformer behind =
        new Transformer("transformer", inside("hot"), near("C"), 27, 24, 40, 0, 0, 0);
    Installation installation =
        heat(
            60 * ohmsPerMetre(24),
            behind,
            new Fuse("fuse", inside("hot"), near("R"), FuseKind.BLADE, 5),
            new Wire("short", near("W"), near("C"), 0.05));
    StateResult result = in(installation, Call.HEAT_1);
    assertThat(result.fuses().get(0).opens().possible()).isFalse();
    assertThat(result.transformers().get(0).overloaded()).isTrue();
    assertThat(new Simulation(installation).opening(state(installation, Call.HEAT_1))).isEmpty();
  }

  @Test
  void aMeterReadsNothingWhereNothingIsJoined() {
    Installation installation = heat(1, SUPPLY, resistor("relay", near("W"), near("C"), 100));
    Simulation simulation = new Simulation(installation);
    Control.State rest = state(installation, Call.NONE);
    assertThat(simulation.volts(rest, near("R"), near("C"))).isCloseTo(27, within(EXACT));
    assertThat(simulation.volts(rest, near("C"), near("R"))).isCloseTo(27, within(EXACT));
    assertThat(simulation.volts(rest, Point.far("R"), Point.far("W"))).isCloseTo(27, within(EXACT));
    assertThat(simulation.volts(rest, near("R"), Point.METAL)).isZero();
    assertThat(simulation.volts(rest, near("R"), near("nowhere"))).isZero();
  }

  @Test
  void anOpenTransformerOrBreakerGivesNothing() {
    Transformer broken = new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 3);
    Installation installation = heat(1, broken, resistor("relay", near("W"), near("C"), 100));
    assertThat(load(in(installation, Call.HEAT_1), "relay").volts())
        .isCloseTo(2700 / (100 + SUPPLY_OHMS + 0.3 / 3 + 2 + CONTACT_OHMS), within(EXACT));
    for (String name : List.of("transformer", "transformer's breaker")) {
      StateResult result = in(installation.withOpen(Set.of(name)), Call.HEAT_1);
      assertThat(load(result, "relay").volts()).isZero();
      assertThat(result.fuses().get(0).amps()).isZero();
    }
  }
}
