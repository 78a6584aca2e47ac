package bellwire.analysis.copper;

import java.util.Locale;
import java.util.Optional;

/**
 * A conductor's cross-section and what it makes of copper's resistance.
 *
 * <p>Diameter of an AWG size from the formula of ASTM B258; copper at 58 MS/m and 0.00393 /K at 20
 * °C (IEC 60028).
 *
 * @param label as people write it: "18 AWG" or "0.75 mm2"
 * @param squareMillimetres cross-section
 */
public record Gauge(String label, double squareMillimetres) {
  /** Conductivity of annealed copper at 20 °C in MS/m, which is m/(ohm·mm²). */
  public static final double CONDUCTIVITY = 58;

  /** Temperature coefficient of annealed copper's resistance at 20 °C, per kelvin. */
  public static final double ALPHA = 0.00393;

  public Gauge {
    if (!(squareMillimetres > 0)) {
      throw new IllegalArgumentException("squareMillimetres=" + squareMillimetres);
    }
  }

  /**
   * @param number 0 to 40
   */
  public static Gauge awg(int number) {
    if (number < 0 || number > 40) {
      throw new IllegalArgumentException("awg=" + number);
    }
    double diameter = 0.127 * Math.pow(92, (36 - number) / 39.0);
    return new Gauge(number + " AWG", Math.PI / 4 * diameter * diameter);
  }

  /** Reads "18 AWG", "18awg", "0.75 mm2" or "0.75 mm²"; empty when it is neither. */
  public static Optional<Gauge> parse(String text) {
    String s = text.trim().toLowerCase(Locale.ROOT).replace("\u00b2", "2");
    try {
      if (s.endsWith("awg")) {
        int number = Integer.parseInt(s.substring(0, s.length() - 3).trim());
        return number < 0 || number > 40 ? Optional.empty() : Optional.of(awg(number));
      }
      if (s.endsWith("mm2")) {
        String figure = s.substring(0, s.length() - 3).trim();
        double area = Double.parseDouble(figure);
        return area > 0 && area <= 100
            ? Optional.of(new Gauge(figure + " mm2", area))
            : Optional.empty();
      }
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
    return Optional.empty();
  }

  /** Resistance of one metre, theory (1) and (2). */
  public double ohmsPerMetre(double celsius) {
    return (1 + ALPHA * (celsius - 20)) / (CONDUCTIVITY * squareMillimetres);
  }
}
