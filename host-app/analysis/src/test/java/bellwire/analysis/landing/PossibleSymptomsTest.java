package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What an installation can show at all, thought out from its parts and its control's calls. */
class PossibleSymptomsTest {
  private static Set<Symptom> possible(Installation installation) {
    return new SymptomReader(installation).possible();
  }

  private static Set<Symptom> and(Set<Symptom> some, Symptom... more) {
    Set<Symptom> all = EnumSet.copyOf(some);
    all.addAll(Set.of(more));
    return all;
  }

  private static final Set<Symptom> HEAT_ONLY =
      EnumSet.of(NO_HEAT, HEAT_ALWAYS_ON, TRANSFORMER_HOT, TRANSFORMER_HOT_ON_CALL, CHATTERS, HUMS);

  private static final Set<Symptom> FURNACE =
      and(
          HEAT_ONLY,
          NOTHING_WORKS,
          CONTROL_BLANK,
          BLANK_ON_HEAT,
          BLANK_ON_COOLING,
          NO_COOLING,
          ONLY_FAN_ON_HEAT,
          ONLY_FAN_ON_COOLING,
          NO_FAN_ON_HEAT,
          NO_FAN_ON_COOLING,
          NO_FAN,
          FAN_ALWAYS_ON,
          OUTDOOR_UNIT_ALWAYS_ON,
          COOLS_ON_HEAT,
          HEATS_ON_COOLING,
          HEAT_ON_FAN,
          OUTDOOR_UNIT_ON_FAN,
          HEATS_AND_COOLS,
          FUSE_OPENS_AT_ONCE,
          FUSE_OPENS_ON_HEAT,
          FUSE_OPENS_ON_COOLING,
          FUSE_OPENS_ON_FAN);

  private static final Set<Symptom> PUMP =
      and(
          FURNACE,
          NO_AUXILIARY_HEAT,
          AUXILIARY_HEAT_TOO_SOON,
          NO_EMERGENCY_HEAT,
          OUTDOOR_UNIT_IN_EMERGENCY,
          OUTDOOR_UNIT_ON_HEAT);

  /** A battery keeps the control alive, two conductors carry heat alone, no fuse can open. */
  @Test
  void twoConductorsShowLittle() {
    assertThat(possible(SampleLoops.HEAT_ONLY.healthy())).isEqualTo(HEAT_ONLY);
  }

  /** It steals its power, and its transformer has a breaker. */
  @Test
  void aControlThatStealsItsPowerCanGoBlank() {
    assertThat(possible(SampleLoops.BOILER.healthy()))
        .isEqualTo(
            and(HEAT_ONLY, CONTROL_BLANK, BLANK_ON_HEAT, FUSE_OPENS_AT_ONCE, FUSE_OPENS_ON_HEAT));
  }

  @Test
  void aFurnaceWithCoolingHasNoStages() {
    assertThat(possible(SampleLoops.FURNACE_COOLING.healthy())).isEqualTo(FURNACE);
    assertThat(possible(SampleLoops.ZONE_PANEL.healthy())).isEqualTo(FURNACE);
    assertThat(possible(SampleLoops.TWO_SUPPLIES.healthy())).isEqualTo(FURNACE);
  }

  @Test
  void aHeatPumpHasAuxiliaryAndEmergencyHeat() {
    assertThat(possible(SampleLoops.HEAT_PUMP_O.healthy())).isEqualTo(PUMP);
    assertThat(possible(SampleLoops.DUAL_FUEL_TWO_STAGE.healthy()))
        .isEqualTo(
            and(
                PUMP,
                NO_SECOND_STAGE_OF_COOLING,
                SECOND_STAGE_OF_COOLING_AT_ONCE,
                NO_SECOND_STAGE_OF_HEAT,
                NO_SECOND_STAGE_IN_EMERGENCY,
                SECOND_STAGE_OF_HEAT_AT_ONCE));
  }

  @Test
  void onABatteryNothingGoesBlank() {
    Set<Symptom> battery = EnumSet.copyOf(FURNACE);
    battery.removeAll(Set.of(CONTROL_BLANK, BLANK_ON_HEAT, BLANK_ON_COOLING));
    assertThat(possible(Variant.onBattery(SampleLoops.FURNACE_COOLING.healthy(), "blue")))
        .isEqualTo(battery);
  }

  /** All is dead where heat and cooling, or the fan, are. */
  @Test
  void whatIsNotCalledIsNotMissed() {
    Installation furnace = SampleLoops.FURNACE_COOLING.healthy();
    assertThat(possible(Variant.without(furnace, Call.FAN)))
        .contains(NOTHING_WORKS, FAN_ALWAYS_ON, NO_FAN_ON_COOLING)
        .doesNotContain(NO_FAN, HEAT_ON_FAN, OUTDOOR_UNIT_ON_FAN, FUSE_OPENS_ON_FAN);
    assertThat(possible(Variant.without(furnace, Call.FAN, Call.COOL_1)))
        .contains(NO_HEAT, COOLS_ON_HEAT)
        .doesNotContain(
            NOTHING_WORKS, NO_COOLING, HEATS_ON_COOLING, BLANK_ON_COOLING, FUSE_OPENS_ON_COOLING);
    assertThat(possible(Variant.without(furnace, Call.FAN, Call.HEAT_1)))
        .contains(NO_COOLING, HEATS_ON_COOLING)
        .doesNotContain(NOTHING_WORKS, NO_HEAT, COOLS_ON_HEAT, BLANK_ON_HEAT, FUSE_OPENS_ON_HEAT);
  }

  @Test
  void stagesAreMissedInTheirOwnMode() {
    Installation dual = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
    assertThat(possible(Variant.without(dual, Call.EMERGENCY_1, Call.EMERGENCY_2)))
        .contains(NO_SECOND_STAGE_OF_HEAT, SECOND_STAGE_OF_HEAT_AT_ONCE, NO_AUXILIARY_HEAT)
        .doesNotContain(NO_SECOND_STAGE_IN_EMERGENCY, NO_EMERGENCY_HEAT, OUTDOOR_UNIT_IN_EMERGENCY);
    assertThat(possible(Variant.without(dual, Call.HEAT_2, Call.HEAT_3)))
        .contains(NO_SECOND_STAGE_IN_EMERGENCY, SECOND_STAGE_OF_HEAT_AT_ONCE)
        .doesNotContain(NO_SECOND_STAGE_OF_HEAT, NO_AUXILIARY_HEAT, AUXILIARY_HEAT_TOO_SOON);
  }

  /** A control of two stages before a heat pump of one: no second stage can be missed. */
  @Test
  void aStageThatTheEquipmentHasNotIsNotMissed() {
    Installation pump = SampleLoops.HEAT_PUMP_O.healthy();
    Installation dual = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
    assertThat(
            possible(new Installation(pump.equipment(), dual.control(), pump.cable(), pump.plan())))
        .isEqualTo(PUMP);
  }

  @Test
  void aHumidifierOrVentilationMakesAccessorySymptomsPossible() {
    for (Load.Role role : List.of(Load.Role.HUMIDIFIER, Load.Role.VENTILATION)) {
      assertThat(possible(withAccessory(role)))
          .isEqualTo(and(FURNACE, ACCESSORY_ALWAYS_ON, NO_ACCESSORY));
    }
  }

  private static Installation withAccessory(Load.Role role) {
    Installation furnace = SampleLoops.FURNACE_COOLING.healthy();
    Equipment e = furnace.equipment();
    Complex z = new Complex(100);
    List<Element> elements = new ArrayList<>(e.elements());
    elements.add(
        new Load(
            "accessory",
            Point.near("W"),
            Point.near("C"),
            Load.Kind.ACCESSORY,
            z,
            z,
            18,
            8,
            30,
            role,
            1));
    Map<Call, Wanted> wanted = new HashMap<>(e.wanted());
    wanted.put(
        Call.HEAT_1,
        new Wanted(Set.of("heat input", "gas valve", "accessory"), Set.of("fan input")));
    return furnace.withEquipment(new Equipment(e.title(), e.terminals(), elements, wanted));
  }

  @Test
  void anAccessoryOnTheHeatTerminalRunsWithHeatAndIsMissedWithoutIt() {
    Installation wet = withAccessory(Load.Role.HUMIDIFIER);
    SymptomReader reader = new SymptomReader(wet);
    assertThat(reader.read(wet).certain()).isEmpty();
    assertThat(reader.read(new CopperMistake.Broken("white").in(wet)).certain())
        .containsExactlyInAnyOrder(NO_HEAT, NO_ACCESSORY);
    Installation held = new CopperMistake.Touching("red", "white", 0.5, false).in(wet);
    assertThat(reader.read(held).certain()).contains(HEAT_ALWAYS_ON, ACCESSORY_ALWAYS_ON);
  }
}
