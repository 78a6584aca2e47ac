package bellwire.hardware.sheet;

import bellwire.hardware.Part;
import bellwire.hardware.PartLine;
import bellwire.hardware.PartsList;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Values and ratings as a sheet gives them. */
final class Engineering {
  /** The line of the parts list that a resistor without a note belongs to. */
  static final String PLAIN_RESISTOR = "resistor";

  private static final String PREFIXES = "pnµm kMG";
  private static final Map<String, String> UNITS =
      Map.of("resistor", "Ω", "capacitor", "F", "inductor", "H");
  private static final Pattern TOLERANCE = Pattern.compile("[0-9.]+ %");
  private static final Pattern DIELECTRIC = Pattern.compile("X7R|C0G");

  private Engineering() {}

  /** Up to five digits and a prefix: {@code 36.5 kΩ}. */
  static String text(double value, String unit) {
    int step = value == 0 ? 0 : (int) Math.floor(Math.log10(Math.abs(value) * (1 + 1e-9)) / 3);
    String prefix = PREFIXES.substring(step + 4, step + 5).trim();
    BigDecimal digits =
        BigDecimal.valueOf(value)
            .movePointLeft(3 * step)
            .round(new MathContext(5))
            .stripTrailingZeros();
    return digits.toPlainString() + " " + prefix + unit;
  }

  /** What a resistor is that shows its value only. */
  static String plainResistor() {
    PartLine line = PartsList.revisionA().line(PLAIN_RESISTOR);
    return "Resistors with a value only: "
        + first(TOLERANCE, line)
        + ", "
        + rating(line, "watts", "W")
        + ".";
  }

  /**
   * What stands under a designator.
   *
   * @param value null where the part has none
   */
  static List<String> lines(Part part, @Nullable Double value) {
    PartLine line = part.line();
    String unit = UNITS.get(line.kind());
    List<String> lines = new ArrayList<>();
    if (unit != null && value != null) {
      lines.add(text(value, unit));
    }
    switch (line.kind()) {
      case "resistor" -> {
        if (!line.name().equals(PLAIN_RESISTOR)) {
          String watts = rating(line, "watts", "W");
          lines.add(first(TOLERANCE, line) + (watts.equals("0.1 W") ? "" : " " + watts));
        }
      }
      case "capacitor" -> lines.add(first(DIELECTRIC, line) + " " + rating(line, "volts", "V"));
      case "inductor", "fuse" -> lines.add(rated(line, "amps", "A"));
      case "diode", "clamp", "mosfet", "bipolar" -> {
        lines.add(line.name());
        lines.add(rating(line, "volts", "V") + " " + rating(line, "amps", "A"));
      }
      case "connector" -> {
        if (line.pins().size() > 1) {
          lines.add(line.name());
        }
      }
      default -> lines.add(line.name());
    }
    return lines;
  }

  private static String rated(PartLine line, String name, String unit) {
    return line.kind().equals("fuse") && line.requirement().contains(", ")
        ? line.requirement().split(", ", -1)[0]
        : rating(line, name, unit);
  }

  private static String rating(PartLine line, String name, String unit) {
    Double value = line.ratings().get(name);
    if (value == null) {
      throw new IllegalArgumentException("parts-a.yaml: part=" + line.name() + " rating=" + name);
    }
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString() + " " + unit;
  }

  private static String first(Pattern pattern, PartLine line) {
    Matcher matcher = pattern.matcher(line.requirement());
    if (!matcher.find()) {
      throw new IllegalArgumentException(
          "parts-a.yaml: part=" + line.name() + " requirement=" + line.requirement());
    }
    return matcher.group();
  }
}
