package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a state shows, as the trade would call it: common practice, no source. */
class StateSymptomsTest {
  private static Load load(String name, Role role, int stage) {
    Complex z = new Complex(100);
    Point at = Point.near(name);
    return new Load(name, at, Point.near("C"), Load.Kind.RELAY, z, z, 18, 8, 30, role, stage);
  }

  private static final List<Load> LOADS =
      List.of(
          load("heat", Role.HEAT, 1),
          load("heat2", Role.HEAT, 2),
          load("pump", Role.COMPRESSOR, 1),
          load("pump2", Role.COMPRESSOR, 2),
          load("valve", Role.VALVE_COOLING, 1),
          load("fan", Role.FAN, 1),
          load("water", Role.HUMIDIFIER, 1),
          load("relay", Role.NONE, 1));

  private static Wanted wanted(String must, String... may) {
    return new Wanted(Set.of(must.split(" ")), Set.of(may));
  }

  private static Equipment equipment(Map<Call, Wanted> wanted) {
    return new Equipment("drawn up", List.of("C"), List.copyOf(LOADS), wanted);
  }

  private static final Equipment FURNACE =
      equipment(
          Map.of(
              Call.FAN,
              wanted("fan"),
              Call.COOL_1,
              wanted("pump valve fan"),
              Call.COOL_2,
              wanted("pump pump2 valve fan"),
              Call.HEAT_1,
              wanted("heat water", "fan"),
              Call.HEAT_2,
              wanted("heat heat2 water", "fan")));

  private static final Equipment PUMP =
      equipment(
          Map.of(
              Call.FAN,
              wanted("fan"),
              Call.COOL_1,
              wanted("pump valve fan"),
              Call.HEAT_1,
              wanted("pump fan"),
              Call.HEAT_2,
              wanted("pump pump2 fan"),
              Call.HEAT_3,
              wanted("heat pump pump2 fan"),
              Call.EMERGENCY_1,
              wanted("heat fan"),
              Call.EMERGENCY_2,
              wanted("heat heat2 fan")));

  /** Everything may run at rest, and the fan and both stages beside the first. */
  private static final Equipment LENIENT =
      equipment(
          Map.of(
              Call.NONE,
              wanted("relay", "fan", "pump", "heat", "water"),
              Call.FAN,
              wanted("relay", "fan", "pump", "heat", "water"),
              Call.HEAT_1,
              wanted("heat", "heat2", "pump", "water"),
              Call.COOL_1,
              wanted("pump valve", "pump2"),
              Call.EMERGENCY_1,
              wanted("heat", "pump")));

  private static Set<Symptom> shows(Equipment equipment, Call call, String on) {
    Mode mode =
        call == Call.NONE || call == Call.FAN
            ? Mode.OFF
            : call.cools()
                ? Mode.COOL
                : call.compareTo(Call.EMERGENCY_1) >= 0 ? Mode.EMERGENCY : Mode.HEAT;
    List<Load> running = new ArrayList<>();
    for (Load l : LOADS) {
      if (Set.of(on.split(" ")).contains(l.name())) {
        running.add(l);
      }
    }
    Set<Symptom> found = EnumSet.noneOf(Symptom.class);
    State state = new State("state", mode, call, List.of());
    new StateSymptoms(equipment, state, Effects.of(equipment, running), found).add();
    return found;
  }

  private static void assertShows(Equipment equipment, Call call, String on, String symptoms) {
    Set<Symptom> expected = EnumSet.noneOf(Symptom.class);
    for (String s : symptoms.split(" ")) {
      if (!s.equals("-")) {
        expected.add(Symptom.valueOf(s));
      }
    }
    assertThat(shows(equipment, call, on)).isEqualTo(expected);
  }

  @ParameterizedTest
  @CsvSource({
    "NONE, -, -",
    "NONE, relay valve, -",
    "NONE, fan, FAN_ALWAYS_ON",
    "NONE, pump valve, OUTDOOR_UNIT_ALWAYS_ON",
    "NONE, pump2, -",
    "NONE, heat, HEAT_ALWAYS_ON",
    "NONE, water, ACCESSORY_ALWAYS_ON",
    "FAN, fan, -",
    "FAN, -, NO_FAN",
    "FAN, fan heat, HEAT_ON_FAN",
    "FAN, fan pump, OUTDOOR_UNIT_ON_FAN",
    "COOL_1, pump valve fan, -",
    "COOL_1, -, NO_COOLING",
    "COOL_1, fan, ONLY_FAN_ON_COOLING",
    "COOL_1, pump2 fan, ONLY_FAN_ON_COOLING",
    "COOL_1, pump valve, NO_FAN_ON_COOLING",
    "COOL_1, pump fan, HEATS_ON_COOLING",
    "COOL_1, heat, HEATS_ON_COOLING",
    "COOL_1, heat fan, ONLY_FAN_ON_COOLING HEATS_ON_COOLING",
    "COOL_1, heat pump valve fan, HEATS_ON_COOLING HEATS_AND_COOLS",
    "COOL_1, pump pump2 valve fan, SECOND_STAGE_OF_COOLING_AT_ONCE",
    "COOL_2, pump pump2 valve fan, -",
    "COOL_2, pump valve fan, NO_SECOND_STAGE_OF_COOLING",
    "COOL_2, fan, -",
    "COOL_2, -, -",
    "HEAT_1, heat water, -",
    "HEAT_1, heat water fan, -",
    "HEAT_1, heat, NO_ACCESSORY",
    "HEAT_1, water, NO_HEAT",
    "HEAT_1, water fan, ONLY_FAN_ON_HEAT",
    "HEAT_1, water fan pump valve, COOLS_ON_HEAT",
    "HEAT_1, heat water fan pump valve, COOLS_ON_HEAT HEATS_AND_COOLS",
    "HEAT_1, heat water fan pump, OUTDOOR_UNIT_ON_HEAT",
    "HEAT_1, heat heat2 water, SECOND_STAGE_OF_HEAT_AT_ONCE",
    "HEAT_2, heat heat2 water, -",
    "HEAT_2, heat water, NO_SECOND_STAGE_OF_HEAT",
    "HEAT_2, water, -"
  })
  void ofAFurnaceWithTwoStagesAndCooling(Call call, String on, String symptoms) {
    assertShows(FURNACE, call, on, symptoms);
  }

  @ParameterizedTest
  @CsvSource({
    "HEAT_1, pump fan, -",
    "HEAT_1, -, NO_HEAT",
    "HEAT_1, fan, ONLY_FAN_ON_HEAT",
    "HEAT_1, fan valve, ONLY_FAN_ON_HEAT",
    "HEAT_1, pump, NO_FAN_ON_HEAT",
    "HEAT_1, pump valve, NO_FAN_ON_HEAT COOLS_ON_HEAT",
    "HEAT_1, pump valve fan, COOLS_ON_HEAT",
    "HEAT_1, heat fan, AUXILIARY_HEAT_TOO_SOON",
    "HEAT_1, heat pump fan, AUXILIARY_HEAT_TOO_SOON",
    "HEAT_1, pump pump2 fan, SECOND_STAGE_OF_HEAT_AT_ONCE",
    "HEAT_2, pump pump2 fan, -",
    "HEAT_2, pump fan, NO_SECOND_STAGE_OF_HEAT",
    "HEAT_2, heat pump pump2 fan, -",
    "HEAT_2, -, -",
    "HEAT_3, heat pump pump2 fan, -",
    "HEAT_3, pump pump2 fan, NO_AUXILIARY_HEAT",
    "HEAT_3, -, NO_AUXILIARY_HEAT",
    "HEAT_3, heat pump pump2, NO_FAN_ON_HEAT",
    "EMERGENCY_1, heat fan, -",
    "EMERGENCY_1, fan, NO_EMERGENCY_HEAT",
    "EMERGENCY_1, heat pump fan, OUTDOOR_UNIT_IN_EMERGENCY",
    "EMERGENCY_1, heat heat2 fan, SECOND_STAGE_OF_HEAT_AT_ONCE",
    "EMERGENCY_2, heat heat2 fan, -",
    "EMERGENCY_2, heat fan, NO_SECOND_STAGE_IN_EMERGENCY",
    "EMERGENCY_2, -, NO_EMERGENCY_HEAT"
  })
  void ofAHeatPumpWithHeatStrips(Call call, String on, String symptoms) {
    assertShows(PUMP, call, on, symptoms);
  }

  @ParameterizedTest
  @CsvSource({
    "NONE, fan pump heat water",
    "FAN, fan pump heat water",
    "FAN, -",
    "HEAT_1, heat heat2 pump water",
    "COOL_1, pump pump2 valve",
    "EMERGENCY_1, heat pump"
  })
  void whatMayRunIsNoSymptom(Call call, String on) {
    assertShows(LENIENT, call, on, "-");
  }

  /** O turns it to cooling; without a valve it cools, with B it heats. */
  @Test
  void theValveSaysWhichWayThePumpWorks() {
    Load pump = load("pump", Role.COMPRESSOR, 1);
    Load o = load("o", Role.VALVE_COOLING, 1);
    Load b = load("b", Role.VALVE_HEATING, 1);
    Equipment plain = of(pump);
    Equipment cooling = of(pump, o);
    Equipment heating = of(pump, b);
    assertThat(Effects.of(plain, List.of(pump)).heats()).isFalse();
    assertThat(Effects.of(cooling, List.of(pump)).heats()).isTrue();
    assertThat(Effects.of(cooling, List.of(pump, o)).heats()).isFalse();
    assertThat(Effects.of(heating, List.of(pump)).heats()).isFalse();
    assertThat(Effects.of(heating, List.of(pump, b)).heats()).isTrue();
    assertThat(Effects.of(heating, List.of(b)).heats()).isFalse();
  }

  private static Equipment of(Load... loads) {
    return new Equipment("drawn up", List.of(), List.of(loads), Map.of());
  }

  @Test
  void aStageIsTheGreatestAndASecondWithoutItsFirstIsNone() {
    Equipment any = equipment(Map.of());
    Load air = load("air", Role.VENTILATION, 1);
    assertThat(Effects.of(any, List.of(LOADS.get(1), LOADS.get(0))).heat()).isEqualTo(2);
    assertThat(Effects.of(any, List.of(LOADS.get(3), LOADS.get(2))).compressor()).isEqualTo(2);
    assertThat(Effects.of(any, List.of(LOADS.get(2), LOADS.get(3))).compressor()).isEqualTo(2);
    assertThat(Effects.of(any, List.of(LOADS.get(3))).compressor()).isZero();
    assertThat(Effects.of(any, List.of(air)).accessory()).isTrue();
    assertThat(Effects.of(any, List.of(LOADS.get(4), LOADS.get(7))).nothing()).isTrue();
    for (Load one : List.of(LOADS.get(0), LOADS.get(2), LOADS.get(5), air)) {
      assertThat(Effects.of(any, List.of(one)).nothing()).as(one.name()).isFalse();
    }
  }
}
