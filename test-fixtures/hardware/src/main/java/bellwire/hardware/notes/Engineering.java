package bellwire.hardware.notes;

import java.math.BigDecimal;
import java.math.MathContext;

/** Numbers as the pages write them. */
final class Engineering {
  private static final String[] PREFIXES = {"p", "n", "µ", "m", "", "k", "M"};
  private static final int DIGITS = 5;

  private Engineering() {}

  /** With a prefix of thousands and no more digits than the value has. */
  static String text(double value, String unit) {
    return text(value, unit, DIGITS);
  }

  /** With a prefix of thousands and so many digits, trailing zeros left out. */
  static String text(double value, String unit, int digits) {
    double size = Math.abs(value);
    int step = 4;
    if (size > 0) {
      step += (int) Math.floor(Math.log10(size * (1 + 1e-9)) / 3);
    }
    step = Math.max(0, Math.min(PREFIXES.length - 1, step));
    BigDecimal scaled =
        BigDecimal.valueOf(value / Math.pow(1000, step - 4)).round(new MathContext(digits));
    return plain(scaled.stripTrailingZeros()) + " " + PREFIXES[step] + unit;
  }

  /** So many decimals, with a real minus sign. */
  static String fixed(double value, int decimals) {
    String text = String.format(java.util.Locale.ROOT, "%." + decimals + "f", value);
    boolean zero = text.matches("-0(\\.0+)?");
    return zero ? text.substring(1) : text.replace('-', '−');
  }

  private static String plain(BigDecimal value) {
    return value.toPlainString().replace('-', '−');
  }
}
