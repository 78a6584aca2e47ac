package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.PartLine;
import bellwire.hardware.ValueExpression;
import bellwire.hardware.deck.BenchReadings.Key;
import bellwire.hardware.deck.BenchReadings.Reading;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What a meter shows at each test point. */
final class TestPointTable {
  /** Most decimals that a hand-held meter gives here. */
  private static final int DECIMALS = 3;

  private static final double SHUNT_VOLTS = 1.24;
  private static final List<String> STATES = List.of("rest", "check-low", "check-high");

  private final Netlist netlist;
  private final Map<Key, Reading> readings;

  TestPointTable(Netlist netlist, Map<Key, Reading> readings) {
    this.netlist = netlist;
    this.readings = readings;
  }

  /**
   * What a place shows in a state.
   *
   * @param place a net, or {@code amps}
   */
  Reading reading(String state, String place) {
    if (place.equals("CLAMP")) {
      return clamp();
    }
    Reading reading =
        readings.get(new Key(state, place.equals("amps") ? place : place.toLowerCase(Locale.ROOT)));
    if (reading == null) {
      throw new IllegalArgumentException("state=" + state + " place=" + place);
    }
    return reading;
  }

  /**
   * The clamps' rail, by its divider: the macromodel of the shunt regulator takes 0.2 mA while it
   * is off, which a real one does not, and would show it a fifth of a volt too low.
   */
  private Reading clamp() {
    double upper = ohms("R421");
    double lower = ohms("R422");
    PartLine shunt = netlist.part("U420").line();
    double reference = shunt.spread().getOrDefault("relative", Double.NaN);
    double resistor = netlist.part("R421").line().spread().getOrDefault("relative", Double.NaN);
    double ratio = upper / lower;
    return new Reading(
        SHUNT_VOLTS * (1 + ratio),
        SHUNT_VOLTS * (1 - reference) * (1 + ratio * (1 - 2 * resistor)),
        SHUNT_VOLTS * (1 + reference) * (1 + ratio * (1 + 2 * resistor)));
  }

  private double ohms(String ref) {
    ValueExpression value = netlist.part(ref).value();
    if (value == null) {
      throw new IllegalStateException("no value=" + ref);
    }
    return value.of(BoardDescription.revisionA()::nominal);
  }

  static String range(Reading reading, int decimals) {
    String low = Engineering.fixed(reading.lowest(), decimals);
    String high = Engineering.fixed(reading.highest(), decimals);
    return low.equals(high) ? low : low + " to " + high;
  }

  String text(int boards, long seed) {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Test points

            Volts by a meter of 10 Mohm, against COM (TP2), of TP18 and TP19 against XC (TP20): the lowest and highest of the nominal
            board and %d drawn within the spreads of parts-a.yaml (seed %d). The meter's own error comes on top. At rest: powered, no
            heartbeat, nothing excited, nothing on the terminals. The checks: [words.md](words.md). TP9 means nothing without a range,
            for its amplifier then has no feedback. TP4 is not in the deck: 5 V against VN by the converter's data sheet.

            | point | net | at rest | low check | high check |
            |---|---|---|---|---|
            """,
            boards,
            seed));
    for (Part part : netlist.parts()) {
      if (part.line().name().equals("test-point")) {
        row(out, part);
      }
    }
    return out.toString();
  }

  private void row(StringBuilder out, Part point) {
    String net = point.net("1");
    out.append("| ").append(point.ref()).append(" | ").append(net).append(" |");
    for (String state : STATES) {
      String cell =
          switch (net) {
            case "COM", "XC" -> "0";
            case "V5" -> "–";
            case "TI_OUT" ->
                state.equals("check-high") ? range(reading(state, net), DECIMALS) : "–";
            default -> range(reading(state, net), DECIMALS);
          };
      out.append(' ').append(cell).append(" |");
    }
    out.append('\n');
  }
}
