package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Closing;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.Setting;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.hipparchus.complex.Complex;

/** Small equipment and controls, and landings drawn over them. Figures: common practice. */
final class SmallReplacement {
  private static final String[] NAMES = {"red", "white", "yellow", "blue", "brown"};

  private SmallReplacement() {}

  private static Load relay(String name, String terminal, Load.Role role) {
    Complex z = new Complex(80, 100);
    return new Load(
        name, Point.near(terminal), Point.near("C"), Load.Kind.RELAY, z, z, 18, 8, 30, role, 1);
  }

  private static Transformer transformer(String hot, String common) {
    return new Transformer(
        hot + " transformer", Point.near(hot), Point.near(common), 27, 24, 40, 0.3, 0, 3);
  }

  private static Wanted must(String... loads) {
    return new Wanted(Set.of(loads), Set.of());
  }

  private static Closing always(String terminal) {
    return new Closing(terminal, Map.of());
  }

  private static ControlContact contact(String supply, String terminal) {
    return new ControlContact(supply, terminal, 0.1, Double.POSITIVE_INFINITY);
  }

  private static Supply fed(String hot) {
    return new Supply(Supply.Kind.COMMON, hot, "C", List.of(), 288, 16);
  }

  private static Supply battery() {
    return new Supply(Supply.Kind.BATTERY, null, null, List.of(), 0, 0);
  }

  private static Equipment heating() {
    return new Equipment(
        "heating",
        List.of("R", "C", "W"),
        List.of(transformer("R", "C"), relay("burner relay", "W", Load.Role.HEAT)),
        Map.of(Call.HEAT_1, must("burner relay")));
  }

  private static Equipment heatingAndCooling() {
    return new Equipment(
        "heating and cooling",
        List.of("R", "C", "W", "Y"),
        List.of(
            transformer("R", "C"),
            relay("burner relay", "W", Load.Role.HEAT),
            relay("contactor", "Y", Load.Role.COMPRESSOR)),
        Map.of(Call.HEAT_1, must("burner relay"), Call.COOL_1, must("contactor")));
  }

  private static Equipment heatPump(Load.Role valve) {
    boolean cooling = valve == Load.Role.VALVE_COOLING;
    return new Equipment(
        "heat pump",
        List.of("R", "C", "Y", cooling ? "O" : "B"),
        List.of(
            transformer("R", "C"),
            relay("contactor", "Y", Load.Role.COMPRESSOR),
            relay("reversing valve", cooling ? "O" : "B", valve)),
        Map.of(
            Call.HEAT_1, cooling ? must("contactor") : must("contactor", "reversing valve"),
            Call.COOL_1, cooling ? must("contactor", "reversing valve") : must("contactor")));
  }

  private static Control heatingControl(Supply supply) {
    return new Control(
        "heating control",
        List.of("R", "C", "W"),
        supply,
        List.of(contact("R", "W")),
        List.of(),
        List.of(),
        List.of(
            new State("calling", Mode.HEAT, Call.HEAT_1, List.of(always("W"))),
            new State("at rest", Mode.HEAT, Call.NONE, List.of())));
  }

  private static Control twoSupplyControl(Supply supply) {
    boolean common = supply.kind() == Supply.Kind.COMMON;
    return new Control(
        "two-supply control",
        common ? List.of("RC", "RH", "C", "W", "Y") : List.of("RC", "RH", "W", "Y"),
        supply,
        List.of(contact("RH", "W"), contact("RC", "Y")),
        List.of(new Jumper(Point.Side.FAR, "RC", "RH")),
        List.of(),
        List.of(
            new State("heat", Mode.HEAT, Call.HEAT_1, List.of(always("W"))),
            new State("cooling", Mode.COOL, Call.COOL_1, List.of(always("Y"))),
            new State("off", Mode.OFF, Call.NONE, List.of())));
  }

  private static Control heatPumpControl(Supply supply) {
    boolean common = supply.kind() == Supply.Kind.COMMON;
    return new Control(
        "heat pump control",
        common ? List.of("R", "C", "Y", "O/B") : List.of("R", "Y", "O/B"),
        supply,
        List.of(contact("R", "Y"), contact("R", "O/B")),
        List.of(),
        List.of(new Setting("valve", List.of("O", "B"))),
        List.of(
            new State(
                "heat",
                Mode.HEAT,
                Call.HEAT_1,
                List.of(always("Y"), new Closing("O/B", Map.of("valve", "B")))),
            new State(
                "cooling",
                Mode.COOL,
                Call.COOL_1,
                List.of(always("Y"), new Closing("O/B", Map.of("valve", "O")))),
            new State("off", Mode.OFF, Call.NONE, List.of())));
  }

  /**
   * Kinds 0 to 6 in turn. As found each conductor is where its letters say, but for up to three
   * ends that are elsewhere or free; at times one is broken or touches another.
   */
  static Replacement draw(long seed) {
    Random random = new Random(seed * 7_919);
    Equipment equipment;
    Control control;
    switch ((int) (seed % 7)) {
      case 0 -> {
        equipment = heating();
        control = heatingControl(battery());
      }
      case 1 -> {
        equipment = heating();
        control = heatingControl(fed("R"));
      }
      case 2 -> {
        equipment = heatingAndCooling();
        control = twoSupplyControl(battery());
      }
      case 3 -> {
        equipment = heatingAndCooling();
        control = twoSupplyControl(fed("RC"));
      }
      case 4 -> {
        equipment = heatPump(Load.Role.VALVE_COOLING);
        control = heatPumpControl(fed("R"));
      }
      case 5 -> {
        equipment = heating();
        control = twoSupplyControl(battery());
      }
      default -> {
        equipment = heatPump(Load.Role.VALVE_HEATING);
        control = heatPumpControl(battery());
      }
    }
    List<String> letters = new ArrayList<>(equipment.terminals());
    if (random.nextInt(3) == 0 || !control.terminals().contains("C")) {
      letters.remove("C");
    }
    List<Landed> landed = new ArrayList<>();
    for (String letter : letters) {
      landed.add(new Landed(NAMES[landed.size()], letter, letter));
    }
    if (landed.size() < 4 && random.nextBoolean()) {
      Landed beside = landed.get(random.nextInt(landed.size()));
      landed.add(
          random.nextBoolean()
              ? new Landed(NAMES[landed.size()], null, null)
              : new Landed(NAMES[landed.size()], beside.near(), beside.far()));
    }
    for (int end = random.nextInt(4); end > 0; end--) {
      int c = random.nextInt(landed.size());
      Landed was = landed.get(c);
      int terminal = random.nextInt(equipment.terminals().size() + 1);
      String to = terminal == 0 ? null : equipment.terminals().get(terminal - 1);
      landed.set(
          c,
          random.nextBoolean()
              ? new Landed(was.conductor(), to, was.far())
              : new Landed(was.conductor(), was.near(), to));
    }
    return new Replacement(
        equipment,
        control,
        cable(random, landed),
        Map.of(),
        new LandingPlan(landed, Set.of(), Map.of()));
  }

  private static Cable cable(Random random, List<Landed> landed) {
    int broken = random.nextInt(5) == 0 ? random.nextInt(landed.size()) : -1;
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (int c = 0; c < landed.size(); c++) {
      String name = landed.get(c).conductor();
      double ohms = c == broken ? Double.POSITIVE_INFINITY : 0.5;
      conductors.add(new Cable.Conductor(name, name, name, ohms, 0));
    }
    List<Cable.Bridge> bridges = new ArrayList<>();
    if (random.nextInt(8) == 0) {
      bridges.add(
          new Cable.Bridge(
              landed.get(0).conductor(), landed.get(1).conductor(), 0.5, random.nextDouble()));
    }
    return new Cable("drawn", conductors, bridges);
  }
}
