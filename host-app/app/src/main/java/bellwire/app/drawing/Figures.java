package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.sheet.SurveySheet;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Figures as drawings write them: expanded uncertainties U with k = 2, prefixes, short words. */
final class Figures {
  /** Coverage factor of every uncertainty that is drawn: about 95 % (GUM 6.2). */
  static final double K = 2;

  private static final double METRES_PER_FOOT = 0.3048;

  private Figures() {}

  /** Such as '14.84 ± 0.81 m': the estimate and U, k = 2. */
  static String expanded(Quantity q) {
    return new Quantity(q.value(), K * q.u(), q.unit()).toString();
  }

  /** A resistance with U, k = 2, in the prefix of its value: '506 ± 15 mΩ', '1.20 ± 0.05 MΩ'. */
  static String expandedOhms(Quantity q) {
    Prefix p = Prefix.of(q.value());
    return new Quantity(q.value() / p.factor, K * q.u() / p.factor, p.unit).toString();
  }

  /** A resistance in three digits: '67.5 mΩ', '300 kΩ'. */
  static String ohms(double ohms) {
    return String.join(" ", ohmsParts(ohms));
  }

  /** Number and unit of a resistance in three digits. */
  static List<String> ohmsParts(double ohms) {
    return ohmsParts(ohms, new MathContext(3, RoundingMode.HALF_UP));
  }

  /** Number and unit of a bound that is exceeded, rounded down, so that it stays one. */
  static List<String> aboveParts(double ohms, int digits) {
    List<String> parts = ohmsParts(ohms, new MathContext(digits, RoundingMode.DOWN));
    return List.of("> " + parts.get(0), parts.get(1));
  }

  /** Number and unit of a resistance. */
  static List<String> ohmsParts(double ohms, MathContext digits) {
    Prefix p = Prefix.of(ohms);
    BigDecimal rounded = new BigDecimal(ohms / p.factor).round(digits);
    if (rounded.abs().doubleValue() < 1e-3) {
      return List.of("0", p.unit);
    }
    if (rounded.scale() < 0) {
      rounded = rounded.setScale(0);
    }
    return List.of(rounded.stripTrailingZeros().toPlainString(), p.unit);
  }

  private enum Prefix {
    MILLI(1e-3, "m\u03a9"),
    ONE(1, "\u03a9"),
    KILO(1e3, "k\u03a9"),
    MEGA(1e6, "M\u03a9"),
    GIGA(1e9, "G\u03a9");

    private final double factor;
    private final String unit;

    Prefix(double factor, String unit) {
      this.factor = factor;
      this.unit = unit;
    }

    static Prefix of(double ohms) {
      Prefix best = MILLI;
      for (Prefix p : values()) {
        // 999.6 rounds to 1000: that is 1 of the next.
        best = Math.abs(ohms) >= 0.9995 * p.factor ? p : best;
      }
      return best;
    }
  }

  /** A place with U, k = 2: '14.84 ± 0.81 m', or in per cent of the run where it has no length. */
  static String place(SurveySheet.Place at, Run run, @Nullable Quantity length) {
    Quantity metres = metres(at, length);
    Quantity percent = new Quantity(100 * at.fraction().value(), 100 * at.fraction().u(), "%");
    Quantity shown = metres == null ? percent : length(metres, run);
    if (at.decided()) {
      return expanded(shown);
    }
    double full = metres == null || length == null ? 100 : length(length, run).value();
    return String.format(
        Locale.ROOT,
        "somewhere %.0f to %.0f %s",
        Math.max(0, shown.value() - K * shown.u()),
        Math.min(full, shown.value() + K * shown.u()),
        shown.unit());
  }

  private static @Nullable Quantity metres(SurveySheet.Place at, @Nullable Quantity length) {
    if (at.metres() != null || length == null) {
      return at.metres();
    }
    double f = at.fraction().value();
    double u = Math.hypot(at.fraction().u() * length.value(), f * length.u());
    return new Quantity(f * length.value(), u, "m");
  }

  /** A length in m as people read it. */
  static Quantity length(Quantity metres, Run run) {
    return run.feet()
        ? new Quantity(metres.value() / METRES_PER_FOOT, metres.u() / METRES_PER_FOOT, "ft")
        : metres;
  }

  /** 'P1', 'P1–P4', 'P1, P2 and P4'. */
  static String ports(List<String> ports) {
    if (ports.size() == 2) {
      return ports.get(0) + "\u2013" + ports.get(1);
    }
    int last = ports.size() - 1;
    return last <= 0
        ? String.join("", ports)
        : String.join(", ", ports.subList(0, last)) + " and " + ports.get(last);
  }
}
