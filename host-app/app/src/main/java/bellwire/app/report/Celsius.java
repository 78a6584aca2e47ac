package bellwire.app.report;

import java.util.Locale;
import java.util.OptionalDouble;

/** Temperatures as people type them: '8 C' or '46 F'. */
public final class Celsius {
  private Celsius() {}

  /**
   * Degrees Celsius; empty for what is no temperature, or is out of bounds.
   *
   * @param low least taken, degrees Celsius
   * @param high most taken, degrees Celsius
   */
  public static OptionalDouble parse(String words, double low, double high) {
    String text = words.strip().toUpperCase(Locale.ROOT);
    try {
      double figure = Double.parseDouble(text.substring(0, Math.max(0, text.length() - 1)).strip());
      double celsius = text.endsWith("F") ? (figure - 32) / 1.8 : figure;
      boolean known = text.endsWith("F") || text.endsWith("C");
      return known && celsius >= low && celsius <= high
          ? OptionalDouble.of(celsius)
          : OptionalDouble.empty();
    } catch (NumberFormatException e) {
      return OptionalDouble.empty();
    }
  }
}
