package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.circuit.TransformerImpedance;
import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.StateResult.Energised;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What a control lives on, and what it does without. */
class ControlSupplyTest {
  private static final double EXACT = 1e-9;

  private static Installation floatOpen(SampleLoops sample) {
    return sample.healthy().withOpen(Set.of("float switch"));
  }

  private static Installation onBattery(Installation installation) {
    Control c = installation.control();
    return new Installation(
        installation.equipment(),
        new Control(
            c.title(),
            c.terminals(),
            SampleControls.battery(),
            c.contacts(),
            c.jumpers(),
            c.settings(),
            c.states()),
        installation.cable(),
        installation.plan(),
        installation.open());
  }

  private static List<String> running(StateResult result) {
    return result.loads().stream()
        .filter(l -> l.energised() != Energised.OFF)
        .map(l -> l.load().name())
        .toList();
  }

  private static StateResult on(Installation installation, Call call) {
    return new Simulation(installation)
        .state(
            installation.control().states().stream()
                .filter(s -> s.call() == call)
                .findFirst()
                .orElseThrow());
  }

  @Test
  void aFloatSwitchInTheSupplyBlanksAControlFedFromCommon() {
    for (StateResult result : new Simulation(floatOpen(SampleLoops.HEAT_PUMP_O)).states()) {
      assertThat(result.lit()).isFalse();
      assertThat(result.controlVolts()).isZero();
      assertThat(running(result)).isEmpty();
      assertThat(result.settled()).isTrue();
    }
  }

  @Test
  void aControlOnABatteryGoesOnCallingInSilence() {
    for (StateResult result :
        new Simulation(onBattery(floatOpen(SampleLoops.HEAT_PUMP_O))).states()) {
      assertThat(result.lit()).isTrue();
      assertThat(running(result)).isEmpty();
    }
  }

  @Test
  void aFloatSwitchInTheCoolingCallStopsTheCompressorAlone() {
    Installation open = floatOpen(SampleLoops.FURNACE_COOLING);
    for (Installation i : List.of(open, onBattery(open))) {
      assertThat(on(i, Call.COOL_1).lit()).isTrue();
      assertThat(running(on(i, Call.COOL_1))).containsExactly("fan input");
      assertThat(running(on(i, Call.HEAT_1))).containsExactly("heat input", "gas valve");
    }
  }

  /** A call that is shorted takes the supply from the control that makes it, again and again. */
  @Test
  void aShortedCallRestartsTheControlForEver() {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    Cable cable = healthy.cable();
    Installation shorted =
        healthy.withCable(
            new Cable(
                cable.name(),
                cable.conductors(),
                List.of(new Cable.Bridge("yellow", "blue", 0.05, 0))));
    StateResult result = on(shorted, Call.COOL_1);
    assertThat(result.settled()).isFalse();
    assertThat(result.lit()).isTrue();
    assertThat(result.controlVolts()).isLessThan(16);
    assertThat(result.fuses().get(0).opens().certain()).isTrue();
    assertThat(new Simulation(shorted).joints(result.state(), 10))
        .extracting(Joint::name)
        .contains("contact R-Y")
        .doesNotContain("contact R-W");
    assertThat(on(shorted, Call.HEAT_1).settled()).isTrue();
    StateResult battery = on(onBattery(shorted), Call.COOL_1);
    assertThat(battery.settled()).isTrue();
    assertThat(battery.fuses().get(0).amps()).isCloseTo(result.fuses().get(0).amps(), within(0.2));
  }

  /** 27 V behind 1.8 ohm and a conductor, shorted by contact, conductor and wire. */
  @Test
  void aShortedCallLeavesTheControlItsShare() {
    Transformer supply = new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);
    Installation installation =
        SampleLoops.landed(
            new Equipment(
                "tiny",
                List.of("R", "C", "W"),
                List.of(supply, new Wire("short", near("W"), near("C"), 0.05)),
                Map.of()),
            SampleControls.heatAndCool(SampleControls.common("R")),
            Map.of(SampleControls.FAN, "equipment"),
            "red:R:R white:W:W blue:C:C",
            0.5);
    StateResult result = on(installation, Call.HEAT_1);
    double beside = 1 / (1 / (0.1 + 0.5 + 0.05) + 1 / 288.5);
    double amps = 27 / (1.8 + 0.5 + beside);
    assertThat(result.controlVolts()).isCloseTo(amps * beside * 288 / 288.5, within(EXACT));
    assertThat(result.transformers().get(0).amps()).isCloseTo(amps, within(EXACT));
    assertThat(result.settled()).isFalse();
  }

  /** 5 kohm through the zone valve's 80 ohm at power factor 0.8, triac's leak beside it. */
  @Test
  void stolenPowerLeavesTheLoadAtRest() {
    Installation boiler = SampleLoops.BOILER.healthy();
    StateResult rest = on(boiler, Call.NONE);
    double control = 1 / (1 / 5000.0 + 1 / 30_000.0);
    Complex transformer = TransformerImpedance.of(27, 24, 40, 0.3).add(0.3 / 2.5);
    Complex all =
        transformer
            .add(2 * SampleLoops.CONDUCTOR_OHMS + control)
            .add(new Complex(80 * 0.8, 80 * 0.6));
    assertThat(rest.lit()).isTrue();
    assertThat(rest.controlVolts()).isCloseTo(27 * control / all.norm(), within(1e-6));
    assertThat(rest.loads().get(0).volts()).isCloseTo(27 * 80 / all.norm(), within(1e-6));
    assertThat(on(boiler, Call.HEAT_1).lit()).isTrue();
  }

  @Test
  void powerIsStolenThroughEveryLoadThatIsNotCalled() {
    Load heat = resistor("heat relay", "W", 100);
    Load cooling = resistor("cooling relay", "Y", 100);
    Transformer supply = new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);
    Installation installation =
        SampleLoops.landed(
            new Equipment(
                "tiny", List.of("R", "C", "W", "Y", "G"), List.of(supply, heat, cooling), Map.of()),
            SampleControls.heatAndCool(SampleControls.stolen("R", "W", "Y")),
            Map.of(SampleControls.FAN, "equipment"),
            "red:R:R white:W:W yellow:Y:Y",
            1);
    // 10 kohm by each of two ways
    double each = 27 / (10_000 + 1 + 100 + 2 * (1 + 1.8));
    assertThat(on(installation, Call.NONE).loads())
        .allSatisfy(l -> assertThat(l.amps()).isCloseTo(each, within(EXACT)));
    // Cooling called: 5 kohm through the heat relay alone; 101 ohm and a contact beside it
    StateResult called = on(installation, Call.COOL_1);
    double beside = 1 / (1 / 5101.0 + 1 / 101.1);
    double across = 27 * beside / (beside + 2.8);
    assertThat(called.loads().get(0).amps()).isCloseTo(across / 5101, within(EXACT));
    assertThat(called.controlVolts()).isCloseTo(across / 5101 * 5000, within(EXACT));
    assertThat(called.lit()).isTrue();
  }

  @Test
  void noWayToStealPowerIsABlankControl() {
    Installation healthy = SampleLoops.BOILER.healthy();
    LandingPlan plan = healthy.plan();
    Installation loose =
        healthy.withPlan(
            new LandingPlan(
                Stream.of(plan.landed().get(0), new LandingPlan.Landed("white", "W", null))
                    .toList(),
                plan.jumpers(),
                plan.settings()));
    assertThat(new Simulation(loose).states()).noneMatch(StateResult::lit);
  }

  private static Load resistor(String name, String terminal, double resistance) {
    Complex ohms = new Complex(resistance);
    return new Load(
        name, near(terminal), near("C"), Kind.RELAY, ohms, ohms, 18, 8, 30, Role.NONE, 1);
  }

  /**
   * A fan of 1 ohm leaves 11.6 V of 27 V at the control, less than the 12 V that it needs. The
   * cooling call, opened for an instant, gives it 27 V · 10 kohm/30 kohm = 9 V through a board's 20
   * kohm, and nearly all through a coil of 100 ohm.
   */
  @Test
  void aCallThatDragsItsSupplyDownBlanksTheControl() {
    assertThat(cooling(20_000, 1).settled()).isFalse();
    assertThat(cooling(100, 1).settled()).isTrue();
    assertThat(cooling(100, 1).lit()).isTrue();
    assertThat(cooling(20_000, 100).settled()).isTrue();
    assertThat(cooling(20_000, 100).lit()).isTrue();
  }

  private static StateResult cooling(double coolingOhms, double fanOhms) {
    Transformer supply = new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);
    return on(
        SampleLoops.landed(
            new Equipment(
                "tiny",
                List.of("R", "C", "W", "Y", "G"),
                List.of(
                    supply,
                    resistor("heat relay", "W", 100),
                    resistor("cooling input", "Y", coolingOhms),
                    resistor("fan", "G", fanOhms)),
                Map.of()),
            SampleControls.heatAndCool(SampleControls.stolen("R", "W", "Y")),
            Map.of(SampleControls.FAN, "equipment"),
            "red:R:R white:W:W yellow:Y:Y green:G:G",
            1),
        Call.COOL_1);
  }

  @Test
  void aControlWithoutBothTerminalsOfItsSupplyIsBlank() {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    Control.Supply fed = SampleControls.common("R");
    for (boolean hot : new boolean[] {false, true}) {
      Control.Supply half =
          new Control.Supply(
              fed.kind(), hot ? "R" : null, hot ? null : "C", List.of(), 288, fed.leastVolts());
      Installation lacking =
          new Installation(
              healthy.equipment(),
              SampleControls.heatAndCool(half),
              healthy.cable(),
              healthy.plan());
      assertThat(new Simulation(lacking).states()).hasSize(8).noneMatch(StateResult::lit);
    }
  }
}
