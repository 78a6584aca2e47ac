package bellwire.analysis.uncertainty;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;

/**
 * A measured result: value, standard uncertainty (GUM 3.3.5) and unit together.
 *
 * @param value best estimate
 * @param u standard uncertainty, not negative, in the same unit
 * @param unit for people, such as "ohm"
 */
public record Quantity(double value, double u, String unit) {

  public Quantity {
    if (!(u >= 0)) {
      throw new IllegalArgumentException("u=" + u);
    }
  }

  public static Quantity ohms(double value, double u) {
    return new Quantity(value, u, "ohm");
  }

  /** The value in the digits its uncertainty warrants: two significant digits of u (GUM 7.2.6). */
  @Override
  public String toString() {
    if (u == 0 || !Double.isFinite(value) || !Double.isFinite(u)) {
      return String.format(Locale.ROOT, "%.6g %s", value, unit);
    }
    int places = 1 - (int) Math.floor(Math.log10(u));
    return round(value, places) + " \u00b1 " + round(u, places) + " " + unit;
  }

  private static String round(double x, int places) {
    return new BigDecimal(x)
        .setScale(places, RoundingMode.HALF_UP)
        .setScale(Math.max(places, 0), RoundingMode.HALF_UP)
        .toPlainString();
  }
}
