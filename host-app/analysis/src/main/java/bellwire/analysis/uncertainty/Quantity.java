package bellwire.analysis.uncertainty;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/**
 * A measured result: value, standard uncertainty (GUM 2.3.1) and unit together.
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

  /**
   * The value in the digits its uncertainty warrants: two significant digits of u (GUM 7.2.6).
   * Without a finite value and uncertainty, what there is of them, as it is.
   */
  @Override
  public String toString() {
    if (u == 0 || Double.isNaN(value)) {
      return String.format(Locale.ROOT, "%.6g %s", value, unit);
    }
    if (Double.isInfinite(value) || Double.isInfinite(u)) {
      return String.format(Locale.ROOT, "%.6g \u00b1 %.2g %s", value, u, unit);
    }
    // Rounded first: 0.0996 becomes 0.10, which has one place fewer than its own exponent says.
    BigDecimal digits = new BigDecimal(u).round(new MathContext(2, RoundingMode.HALF_UP));
    int places = digits.scale() + 2 - digits.precision();
    return round(value, places) + " \u00b1 " + round(u, places) + " " + unit;
  }

  private static String round(double x, int places) {
    return new BigDecimal(x)
        .setScale(places, RoundingMode.HALF_UP)
        .setScale(Math.max(places, 0), RoundingMode.HALF_UP)
        .toPlainString();
  }
}
