package bellwire.analysis.loop;

import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Installations in which every call runs what it is to run and nothing else. */
public enum SampleLoops {
  /** Furnace and cooling behind one board; control fed from C; float switch in the cooling call. */
  FURNACE_COOLING(
      SampleEquipment.furnaceAndCooling(),
      SampleControls.heatAndCool(SampleControls.common("R")),
      Map.of(SampleControls.FAN, "equipment"),
      "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G"),
  /** One stage of heat pump, heat strips as last stage; float switch in the supply. */
  HEAT_PUMP_O(
      SampleEquipment.heatPump(),
      SampleControls.universal(1),
      Map.of(
          SampleControls.EQUIPMENT,
          SampleControls.HEAT_PUMP,
          SampleControls.VALVE,
          "O",
          SampleControls.FAN,
          "control"),
      "red:R:RC blue:C:C white:W1:W1 yellow:Y:Y1 green:G:G orange:O:O/B brown:-:-"),
  /** A furnace and an air handler with a transformer each; no jumper between RC and RH. */
  TWO_SUPPLIES(
      SampleEquipment.twoSupplies(),
      SampleControls.twoSupplies(),
      Map.of(SampleControls.FAN, "equipment"),
      "red:RH:RH white:W:W black:RC:RC blue:C:C yellow:Y:Y green:G:G"),
  /** Two-stage heat pump over a two-stage furnace. */
  DUAL_FUEL_TWO_STAGE(
      SampleEquipment.dualFuel(),
      SampleControls.universal(2),
      Map.of(
          SampleControls.EQUIPMENT,
          SampleControls.DUAL_FUEL,
          SampleControls.VALVE,
          "O",
          SampleControls.FAN,
          "equipment"),
      "red:R:RC blue:C:C white:W1:W1 brown:W2:W2 yellow:Y1:Y1 black:Y2:Y2 green:G:G orange:O:O/B"),
  /** Two conductors, a battery in the control, no fuse. */
  HEAT_ONLY(
      SampleEquipment.heatOnly(),
      SampleControls.heatOnly(SampleControls.battery()),
      Map.of(),
      "red:R:R white:W:W"),
  /** The control calls a panel, the panel's relays a furnace with its own supply. */
  ZONE_PANEL(
      SampleEquipment.zonePanel(),
      SampleControls.heatAndCool(SampleControls.common("R")),
      Map.of(SampleControls.FAN, "equipment"),
      "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G"),
  /** A zone valve through which the control steals its power; the boiler has its own supply. */
  BOILER(
      SampleEquipment.boiler(),
      SampleControls.heatOnly(SampleControls.stolen("R", "W")),
      Map.of(),
      "red:R:R white:W:W");

  /** 18 AWG at 20 °C: 6.385 ohm per 1000 ft (Floyd's table); 25 m. */
  static final double CONDUCTOR_OHMS = 6.385 / 304.8 * 25;

  private final Installation healthy;

  SampleLoops(Equipment equipment, Control control, Map<String, String> settings, String landing) {
    boolean joined =
        equipment.all(Transformer.class).size() == 1
            && control.jumpers().contains(SampleControls.SUPPLIES);
    Installation landed = landed(equipment, control, settings, landing, CONDUCTOR_OHMS);
    LandingPlan plan = landed.plan();
    healthy =
        joined
            ? landed.withPlan(
                new LandingPlan(plan.landed(), Set.of(SampleControls.SUPPLIES), settings))
            : landed;
  }

  /**
   * Without jumpers.
   *
   * @param landing of each conductor 'name:near terminal:far terminal', '-' for a free end
   * @param ohms of each conductor
   */
  static Installation landed(
      Equipment equipment,
      Control control,
      Map<String, String> settings,
      String landing,
      double ohms) {
    List<Conductor> conductors = new ArrayList<>();
    List<Landed> landed = new ArrayList<>();
    for (String words : landing.split(" ")) {
      String[] part = words.split(":");
      conductors.add(new Conductor(part[0], part[0], part[0], ohms, 0));
      landed.add(
          new Landed(
              part[0], part[1].equals("-") ? null : part[1], part[2].equals("-") ? null : part[2]));
    }
    return new Installation(
        equipment,
        control,
        new Cable("18-" + conductors.size(), conductors, List.of()),
        new LandingPlan(landed, Set.of(), settings));
  }

  public Installation healthy() {
    return healthy;
  }
}
