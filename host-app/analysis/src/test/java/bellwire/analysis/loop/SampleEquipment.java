package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.inside;
import static bellwire.analysis.loop.Point.near;
import static bellwire.analysis.loop.SampleParts.blade;
import static bellwire.analysis.loop.SampleParts.boardInput;
import static bellwire.analysis.loop.SampleParts.contactor;
import static bellwire.analysis.loop.SampleParts.gasValve;
import static bellwire.analysis.loop.SampleParts.motor;
import static bellwire.analysis.loop.SampleParts.relay;
import static bellwire.analysis.loop.SampleParts.reversingValve;
import static bellwire.analysis.loop.SampleParts.transformer;

import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Load.Role;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Generic equipment, arranged as is usual in the trade: common practice, no source. */
final class SampleEquipment {
  private static final double OUTDOOR_OHMS = 0.2;
  private static final double BOND_OHMS = 0.05;

  private SampleEquipment() {}

  /** Furnace with a board, common bonded to the cabinet, float switch in the cooling call. */
  static Equipment furnaceAndCooling() {
    return new Equipment(
        "furnace with cooling",
        List.of("R", "C", "W", "Y", "G"),
        List.of(
            transformer("main transformer", inside("hot end"), near("C"), 40),
            blade("board fuse", inside("hot end"), near("R"), 3),
            bond(near("C")),
            boardInput("heat input", near("W"), near("C"), 1500, Role.NONE, 1),
            new Contact("heat relay", near("R"), inside("limit's lead"), "heat input", true),
            limit(inside("limit's lead"), inside("valve's lead")),
            gasValve("gas valve", inside("valve's lead"), near("C"), 1),
            boardInput("fan input", near("G"), near("C"), 1500, Role.FAN, 1),
            drainFloat(near("Y"), inside("outdoor Y")),
            outdoor("Y", inside("outdoor Y")),
            contactor(
                "compressor contactor",
                inside("contactor's Y"),
                inside("outdoor C"),
                Role.COMPRESSOR,
                1),
            new Wire("outdoor cable's C", near("C"), inside("outdoor C"), OUTDOOR_OHMS)),
        Map.of(
            Call.FAN, must("fan input"),
            Call.HEAT_1, new Wanted(Set.of("heat input", "gas valve"), Set.of("fan input")),
            Call.COOL_1, must("compressor contactor", "fan input")));
  }

  /** Air handler with heat strips and a heat pump outdoors; float switch in the supply. */
  static Equipment heatPump() {
    return new Equipment(
        "heat pump with heat strips, valve O",
        List.of("R", "C", "Y", "G", "O", "W1"),
        List.of(
            transformer("main transformer", inside("hot end"), near("C"), 40),
            blade("board fuse", inside("hot end"), inside("fused"), 5),
            drainFloat(inside("fused"), near("R")),
            bond(near("C")),
            relay("fan relay", near("G"), near("C"), Role.FAN, 1),
            relay("heat strip relay", near("W1"), near("C"), Role.HEAT, 1),
            outdoor("Y", near("Y")),
            pressure(inside("contactor's Y"), inside("contactor's coil")),
            contactor(
                "compressor contactor",
                inside("contactor's coil"),
                inside("outdoor C"),
                Role.COMPRESSOR,
                1),
            new Wire("outdoor cable's O", near("O"), inside("outdoor O"), OUTDOOR_OHMS),
            reversingValve("reversing valve", inside("outdoor O"), inside("outdoor C")),
            new Wire("outdoor cable's C", near("C"), inside("outdoor C"), OUTDOOR_OHMS)),
        Map.of(
            Call.FAN, must("fan relay"),
            Call.COOL_1, must("compressor contactor", "reversing valve", "fan relay"),
            Call.HEAT_1, must("compressor contactor", "fan relay"),
            Call.HEAT_2, must("compressor contactor", "heat strip relay", "fan relay"),
            Call.EMERGENCY_1, must("heat strip relay", "fan relay")));
  }

  /** An older furnace and an added air handler, each with its own transformer. */
  static Equipment twoSupplies() {
    return new Equipment(
        "furnace and cooling, two transformers",
        List.of("RH", "W", "CH", "RC", "C", "Y", "G"),
        List.of(
            transformer("heating transformer", near("RH"), near("CH"), 40),
            limit(near("W"), inside("valve's lead")),
            gasValve("gas valve", inside("valve's lead"), near("CH"), 1),
            transformer("cooling transformer", near("RC"), near("C"), 40, 3),
            bond(near("C")),
            relay("fan relay", near("G"), near("C"), Role.FAN, 1),
            outdoor("Y", near("Y")),
            contactor(
                "compressor contactor",
                inside("contactor's Y"),
                inside("outdoor C"),
                Role.COMPRESSOR,
                1),
            new Wire("outdoor cable's C", near("C"), inside("outdoor C"), OUTDOOR_OHMS)),
        Map.of(
            Call.FAN, must("fan relay"),
            Call.HEAT_1, new Wanted(Set.of("gas valve"), Set.of("fan relay")),
            Call.COOL_1, must("compressor contactor", "fan relay")));
  }

  /** Two-stage furnace under a two-stage heat pump; W1 and W2 are inputs of the board. */
  static Equipment dualFuel() {
    return new Equipment(
        "two-stage heat pump over a two-stage furnace, valve O",
        List.of("R", "C", "W1", "W2", "Y1", "Y2", "G", "O"),
        List.of(
            transformer("main transformer", inside("hot end"), near("C"), 75),
            blade("board fuse", inside("hot end"), near("R"), 5),
            bond(near("C")),
            boardInput("heat input", near("W1"), near("C"), 1500, Role.NONE, 1),
            boardInput("second heat input", near("W2"), near("C"), 1500, Role.NONE, 2),
            new Contact("heat relay", near("R"), inside("limit's lead"), "heat input", true),
            limit(inside("limit's lead"), inside("valve's lead")),
            gasValve("gas valve", inside("valve's lead"), near("C"), 1),
            new Contact(
                "second heat relay",
                inside("valve's lead"),
                inside("valve's second lead"),
                "second heat input",
                true),
            gasValve("gas valve's second stage", inside("valve's second lead"), near("C"), 2),
            boardInput("fan input", near("G"), near("C"), 1500, Role.FAN, 1),
            outdoor("Y", near("Y1")),
            pressure(inside("contactor's Y"), inside("contactor's coil")),
            contactor(
                "compressor contactor",
                inside("contactor's coil"),
                inside("outdoor C"),
                Role.COMPRESSOR,
                1),
            new Wire("outdoor cable's Y2", near("Y2"), inside("outdoor Y2"), OUTDOOR_OHMS),
            relay(
                "second stage relay",
                inside("outdoor Y2"),
                inside("outdoor C"),
                Role.COMPRESSOR,
                2),
            new Wire("outdoor cable's O", near("O"), inside("outdoor O"), OUTDOOR_OHMS),
            reversingValve("reversing valve", inside("outdoor O"), inside("outdoor C")),
            new Wire("outdoor cable's C", near("C"), inside("outdoor C"), OUTDOOR_OHMS)),
        Map.of(
            Call.FAN, must("fan input"),
            Call.COOL_1, must("compressor contactor", "reversing valve", "fan input"),
            Call.COOL_2,
                must("compressor contactor", "second stage relay", "reversing valve", "fan input"),
            Call.HEAT_1, must("compressor contactor", "fan input"),
            Call.HEAT_2, must("compressor contactor", "second stage relay", "fan input"),
            Call.HEAT_3, new Wanted(Set.of("heat input", "gas valve"), Set.of("fan input")),
            Call.EMERGENCY_1, new Wanted(Set.of("heat input", "gas valve"), Set.of("fan input")),
            Call.EMERGENCY_2,
                new Wanted(
                    Set.of(
                        "heat input", "gas valve", "second heat input", "gas valve's second stage"),
                    Set.of("fan input"))));
  }

  /** A furnace with nothing but a gas valve behind a limit switch, and no fuse. */
  static Equipment heatOnly() {
    return new Equipment(
        "furnace without a board",
        List.of("R", "W", "C"),
        List.of(
            transformer("main transformer", near("R"), near("C"), 40),
            limit(near("W"), inside("valve's lead")),
            gasValve("gas valve", inside("valve's lead"), near("C"), 1)),
        Map.of(Call.HEAT_1, must("gas valve")));
  }

  /** A panel with its own supply, whose relays call a furnace with another. */
  static Equipment zonePanel() {
    return new Equipment(
        "zone panel before a furnace with cooling",
        List.of("R", "C", "W", "Y", "G"),
        List.of(
            transformer("panel transformer", inside("panel's hot end"), near("C"), 40),
            blade("panel fuse", inside("panel's hot end"), near("R"), 3),
            boardInput("panel's heat input", near("W"), near("C"), 2200, Role.NONE, 1),
            boardInput("panel's cooling input", near("Y"), near("C"), 2200, Role.NONE, 1),
            boardInput("panel's fan input", near("G"), near("C"), 2200, Role.NONE, 1),
            transformer(
                "furnace transformer", inside("furnace's hot end"), inside("furnace C"), 40),
            blade("board fuse", inside("furnace's hot end"), inside("furnace R"), 5),
            bond(inside("furnace C")),
            panelRelay("W", "panel's heat input"),
            panelRelay("Y", "panel's cooling input"),
            panelRelay("G", "panel's fan input"),
            limit(inside("furnace W"), inside("valve's lead")),
            gasValve("gas valve", inside("valve's lead"), inside("furnace C"), 1),
            relay("fan relay", inside("furnace G"), inside("furnace C"), Role.FAN, 1),
            outdoor("Y", inside("furnace Y")),
            contactor(
                "compressor contactor",
                inside("contactor's Y"),
                inside("furnace C"),
                Role.COMPRESSOR,
                1)),
        Map.of(
            Call.FAN, must("panel's fan input", "fan relay"),
            Call.HEAT_1, must("panel's heat input", "gas valve"),
            Call.COOL_1,
                must(
                    "panel's cooling input",
                    "compressor contactor",
                    "panel's fan input",
                    "fan relay")));
  }

  /** A zone valve whose end switch calls the boiler on a supply of its own. */
  static Equipment boiler() {
    return new Equipment(
        "boiler with a zone valve",
        List.of("R", "W", "C"),
        List.of(
            transformer("zone transformer", near("R"), near("C"), 40, 2.5),
            motor("zone valve", near("W"), near("C"), Role.NONE),
            transformer("boiler transformer", inside("boiler's hot end"), inside("boiler C"), 40),
            new Contact(
                "end switch",
                inside("boiler's hot end"),
                inside("end switch's lead"),
                "zone valve",
                true),
            limit(inside("end switch's lead"), inside("burner's lead")),
            relay("burner relay", inside("burner's lead"), inside("boiler C"), Role.HEAT, 1),
            bond(inside("boiler C"))),
        Map.of(Call.HEAT_1, must("zone valve", "burner relay")));
  }

  private static Wanted must(String... loads) {
    return new Wanted(Set.of(loads), Set.of());
  }

  private static Wire bond(Point common) {
    return new Wire("bond of the common", common, Point.METAL, BOND_OHMS);
  }

  private static Wire outdoor(String terminal, Point from) {
    return new Wire(
        "outdoor cable's " + terminal, from, inside("contactor's " + terminal), OUTDOOR_OHMS);
  }

  private static Contact panelRelay(String terminal, String input) {
    return new Contact(
        "panel's relay " + terminal,
        inside("furnace R"),
        inside("furnace " + terminal),
        input,
        true);
  }

  private static Switch limit(Point a, Point b) {
    return new Switch("limit switch", a, b, Switch.Kind.LIMIT, "the heat exchanger is too hot");
  }

  private static Switch drainFloat(Point a, Point b) {
    return new Switch("float switch", a, b, Switch.Kind.FLOAT, "the drain pan is full");
  }

  private static Switch pressure(Point a, Point b) {
    return new Switch("pressure switch", a, b, Switch.Kind.PRESSURE, "the pressure is too high");
  }
}
