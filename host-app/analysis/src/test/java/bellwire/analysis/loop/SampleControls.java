package bellwire.analysis.loop;

import bellwire.analysis.loop.Control.Closing;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.Setting;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Control.Supply;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Generic room controls; their figures are common practice, no source. */
final class SampleControls {
  static final String EQUIPMENT = "equipment";
  static final String CONVENTIONAL = "conventional";
  static final String HEAT_PUMP = "heat pump";
  static final String DUAL_FUEL = "dual fuel";
  static final String VALVE = "valve";
  static final String FAN = "fan in heat";
  static final Jumper SUPPLIES = new Jumper(Point.Side.FAR, "RC", "RH");

  private static final double CONTACT_OHMS = 0.1;
  private static final double RELAY_LEAK_OHMS = Double.POSITIVE_INFINITY;
  private static final double TRIAC_LEAK_OHMS = 30_000;

  private SampleControls() {}

  /** Fed from C with 2 VA; blank below 16 V. */
  static Supply common(String hot) {
    return new Supply(Supply.Kind.COMMON, hot, "C", List.of(), 288, 16);
  }

  static Supply battery() {
    return new Supply(Supply.Kind.BATTERY, null, null, List.of(), 0, 0);
  }

  /** 27 V over 5 kohm are 5 mA. */
  static Supply stolen(String hot, String... through) {
    return new Supply(Supply.Kind.STOLEN, hot, null, List.of(through), 5000, 12);
  }

  /** One stage of heat, nothing else. */
  static Control heatOnly(Supply supply) {
    double leak = supply.kind() == Supply.Kind.STOLEN ? TRIAC_LEAK_OHMS : RELAY_LEAK_OHMS;
    return new Control(
        "control for heat only",
        List.of("R", "W"),
        supply,
        List.of(new ControlContact("R", "W", CONTACT_OHMS, leak)),
        List.of(),
        List.of(),
        List.of(
            new State("off", Mode.OFF, Call.NONE, List.of()),
            new State("heat, at rest", Mode.HEAT, Call.NONE, List.of()),
            new State("heat, calling", Mode.HEAT, Call.HEAT_1, List.of(always("W")))));
  }

  /** One stage of heat and one of cooling, for conventional equipment. */
  static Control heatAndCool(Supply supply) {
    return new Control(
        "control for heat and cooling",
        List.of("R", "C", "W", "Y", "G"),
        supply,
        List.of(relay("R", "W"), relay("R", "Y"), relay("R", "G")),
        List.of(),
        List.of(new Setting(FAN, List.of("equipment", "control"))),
        List.of(
            new State("off", Mode.OFF, Call.NONE, List.of()),
            new State("off, fan on", Mode.OFF, Call.FAN, List.of(always("G"))),
            new State("heat, at rest", Mode.HEAT, Call.NONE, List.of()),
            new State("heat, fan on", Mode.HEAT, Call.FAN, List.of(always("G"))),
            new State(
                "heat, calling",
                Mode.HEAT,
                Call.HEAT_1,
                List.of(always("W"), new Closing("G", Map.of(FAN, "control")))),
            new State("cooling, at rest", Mode.COOL, Call.NONE, List.of()),
            new State("cooling, fan on", Mode.COOL, Call.FAN, List.of(always("G"))),
            new State(
                "cooling, calling", Mode.COOL, Call.COOL_1, List.of(always("Y"), always("G")))));
  }

  /** Heat and cooling on separate supplies, with a jumper between them. */
  static Control twoSupplies() {
    Control one = heatAndCool(common("RC"));
    return new Control(
        "control for heat and cooling, two supplies",
        List.of("RC", "RH", "C", "W", "Y", "G"),
        one.supply(),
        List.of(relay("RH", "W"), relay("RC", "Y"), relay("RC", "G")),
        List.of(SUPPLIES),
        one.settings(),
        one.states());
  }

  /**
   * For conventional equipment, heat pump and dual fuel. A heat pump's stages come first, the last
   * stage of heat is W1; with dual fuel W1 replaces the compressor.
   *
   * @param stages of the compressor, 1 or 2
   */
  static Control universal(int stages) {
    List<State> states = new ArrayList<>();
    for (Mode mode : Mode.values()) {
      String words = mode == Mode.EMERGENCY ? "emergency heat" : words(mode);
      states.add(
          new State(mode == Mode.OFF ? "off" : words + ", at rest", mode, Call.NONE, List.of()));
      states.add(new State(words + ", fan on", mode, Call.FAN, List.of(always("G"))));
      for (int stage = 1; stage <= calls(mode, stages); stage++) {
        states.add(
            new State(
                words + ", stage " + stage, mode, call(mode, stage), closes(mode, stage, stages)));
      }
    }
    boolean two = stages == 2;
    return new Control(
        "control for every equipment",
        two
            ? List.of("RC", "RH", "C", "Y1", "Y2", "G", "O/B", "W1", "W2")
            : List.of("RC", "RH", "C", "Y1", "G", "O/B", "W1"),
        common("RC"),
        two
            ? List.of(
                relay("RC", "Y1"),
                relay("RC", "Y2"),
                relay("RC", "G"),
                relay("RC", "O/B"),
                relay("RH", "W1"),
                relay("RH", "W2"))
            : List.of(relay("RC", "Y1"), relay("RC", "G"), relay("RC", "O/B"), relay("RH", "W1")),
        List.of(SUPPLIES),
        List.of(
            new Setting(EQUIPMENT, List.of(CONVENTIONAL, HEAT_PUMP, DUAL_FUEL)),
            new Setting(VALVE, List.of("O", "B")),
            new Setting(FAN, List.of("equipment", "control"))),
        states);
  }

  private static String words(Mode mode) {
    return switch (mode) {
      case OFF -> "off";
      case HEAT -> "heat";
      case COOL -> "cooling";
      case EMERGENCY -> "emergency heat";
    };
  }

  private static int calls(Mode mode, int stages) {
    return switch (mode) {
      case OFF -> 0;
      case HEAT -> stages + 1;
      case COOL, EMERGENCY -> stages;
    };
  }

  private static Call call(Mode mode, int stage) {
    Call first =
        switch (mode) {
          case HEAT -> Call.HEAT_1;
          case COOL -> Call.COOL_1;
          case EMERGENCY -> Call.EMERGENCY_1;
          case OFF -> Call.NONE;
        };
    return Call.values()[first.ordinal() + stage - 1];
  }

  private static List<Closing> closes(Mode mode, int stage, int stages) {
    List<Closing> closes = new ArrayList<>();
    if (mode == Mode.COOL) {
      compressor(closes, stage, Map.of());
      for (String pump : List.of(HEAT_PUMP, DUAL_FUEL)) {
        closes.add(new Closing("O/B", Map.of(EQUIPMENT, pump, VALVE, "O")));
      }
      return closes;
    }
    boolean emergency = mode == Mode.EMERGENCY;
    burner(closes, Math.min(stage, stages), Map.of(EQUIPMENT, CONVENTIONAL));
    for (String pump : List.of(HEAT_PUMP, DUAL_FUEL)) {
      boolean last = stage == stages + 1;
      if (!emergency && !(last && pump.equals(DUAL_FUEL))) {
        compressor(closes, Math.min(stage, stages), Map.of(EQUIPMENT, pump));
        closes.add(new Closing("O/B", Map.of(EQUIPMENT, pump, VALVE, "B")));
      }
      if (emergency || last) {
        burner(closes, emergency ? stage : 1, Map.of(EQUIPMENT, pump));
      }
    }
    return closes;
  }

  private static void compressor(List<Closing> closes, int stage, Map<String, String> when) {
    for (int s = 1; s <= stage; s++) {
      closes.add(new Closing("Y" + s, when));
    }
    closes.add(new Closing("G", when));
  }

  private static void burner(List<Closing> closes, int stage, Map<String, String> when) {
    for (int s = 1; s <= stage; s++) {
      closes.add(new Closing("W" + s, when));
    }
    String equipment = when.get(EQUIPMENT);
    closes.add(new Closing("G", Map.of(EQUIPMENT, equipment, FAN, "control")));
  }

  private static Closing always(String terminal) {
    return new Closing(terminal, Map.of());
  }

  private static ControlContact relay(String supply, String terminal) {
    return new ControlContact(supply, terminal, CONTACT_OHMS, RELAY_LEAK_OHMS);
  }
}
