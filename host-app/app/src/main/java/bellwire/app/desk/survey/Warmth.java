package bellwire.app.desk.survey;

import java.util.Locale;
import java.util.OptionalDouble;

/** Temperatures of copper as people type them. */
final class Warmth {
  private static final double LEAST = -40;
  private static final double MOST = 90;

  private Warmth() {}

  /** Of '22', '22 C' or '72 F'; empty for what is none. */
  static OptionalDouble celsius(String words) {
    String text = words.strip().toUpperCase(Locale.ROOT).replace("°", "");
    boolean fahrenheit = text.endsWith("F");
    String figure =
        text.endsWith("F") || text.endsWith("C") ? text.substring(0, text.length() - 1) : text;
    try {
      double value = Double.parseDouble(figure.strip());
      double celsius = fahrenheit ? (value - 32) / 1.8 : value;
      return celsius >= LEAST && celsius <= MOST
          ? OptionalDouble.of(celsius)
          : OptionalDouble.empty();
    } catch (NumberFormatException e) {
      return OptionalDouble.empty();
    }
  }
}
