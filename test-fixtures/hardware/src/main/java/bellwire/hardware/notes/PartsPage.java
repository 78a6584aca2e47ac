package bellwire.hardware.notes;

import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.PartLine;
import bellwire.hardware.PartsList;
import bellwire.hardware.PreferredNumbers;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The parts list as a page: how many, of what values, what each has to be, and what else would do.
 */
final class PartsPage {
  private static final Set<String> WITH_VALUES = Set.of("resistor", "capacitor", "inductor");
  private static final int MOST_VALUES = 40;

  private PartsPage() {}

  static String text(
      Netlist netlist, PartsList list, java.util.function.ToDoubleFunction<String> named) {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Parts list

            From parts-a.yaml and netlist-a.yaml: %d parts of %d lines. Ratings are absolute maxima that a part has to bear. **Types are examples
            of their kind, from memory**: check the data sheet of what you buy against the whole line. 'Check' is what tells whether
            another type will do.

            | line | on the board | has to be | why | has to bear | example | alternative | check |
            |---|---|---|---|---|---|---|---|
            """,
            netlist.parts().size(),
            list.lines().size()));
    for (PartLine line : list.lines()) {
      List<Part> parts = netlist.parts().stream().filter(p -> p.line().equals(line)).toList();
      out.append("| ")
          .append(
              String.join(
                  " | ",
                  line.name(),
                  parts.size() + values(line, parts, named),
                  line.requirement(),
                  line.reason(),
                  ratings(line.ratings()),
                  line.example(),
                  line.alternative(),
                  line.check()))
          .append(" |\n");
    }
    return out.toString();
  }

  private static String values(
      PartLine line, List<Part> parts, java.util.function.ToDoubleFunction<String> named) {
    if (!WITH_VALUES.contains(line.kind())) {
      return "";
    }
    Set<String> values = new LinkedHashSet<>();
    String unit =
        switch (line.kind()) {
          case "resistor" -> "ohm";
          case "capacitor" -> "F";
          default -> "H";
        };
    for (Part part : parts) {
      if (part.value() != null) {
        values.add(value(line, part.value().of(named), unit));
      }
    }
    return values.isEmpty() || values.size() > MOST_VALUES ? "" : ": " + String.join(", ", values);
  }

  /** With the preferred number to buy, where the value is none; foil is made to any value. */
  private static String value(PartLine line, double value, String unit) {
    String text = Engineering.text(value, unit);
    double nearest = PreferredNumbers.nearest(value);
    boolean made = !unit.equals("ohm") || line.requirement().contains("foil");
    return made || Math.abs(nearest / value - 1) < 1e-6
        ? text
        : text + " (buy " + Engineering.text(nearest, unit) + ")";
  }

  private static String ratings(Map<String, Double> ratings) {
    List<String> texts = new ArrayList<>();
    ratings.forEach(
        (name, value) -> {
          int dash = name.lastIndexOf('-');
          String unit =
              switch (name.substring(dash + 1)) {
                case "volts" -> "V";
                case "amps" -> "A";
                case "watts" -> "W";
                default -> "J";
              };
          String what = dash < 0 ? "" : " " + name.substring(0, dash);
          texts.add(Engineering.text(value, unit) + what);
        });
    return texts.stream().collect(Collectors.joining(", "));
  }
}
