package bellwire.app.desk;

import java.util.Locale;
import java.util.OptionalDouble;

/** Lengths as the people of a visit want them; inside everything is in metres. */
public enum Units {
  METRES("m", 1),
  FEET("ft", 0.3048);

  private final String symbol;
  private final double metres;

  Units(String symbol, double metres) {
    this.symbol = symbol;
    this.metres = metres;
  }

  /** Of a job's fact; metres where it tells nothing. */
  public static Units of(String fact) {
    return fact.equals("feet") ? FEET : METRES;
  }

  /** As the job keeps it: 'metres' or 'feet'. */
  public String fact() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String symbol() {
    return symbol;
  }

  /** Such as '24.5 m' or '80.4 ft'. */
  public String length(double lengthMetres) {
    return String.format(Locale.ROOT, "%.1f %s", lengthMetres / metres, symbol);
  }

  /**
   * Metres of '24.5', '24.5 m' or '80 ft'; a bare figure is in this unit. Empty for what is no
   * length.
   */
  public OptionalDouble parseMetres(String words) {
    String text = words.trim().toLowerCase(Locale.ROOT).replace(',', '.');
    for (Units unit : values()) {
      if (text.endsWith(unit.symbol)) {
        return figure(text.substring(0, text.length() - unit.symbol.length()), unit);
      }
    }
    return figure(text, this);
  }

  private static OptionalDouble figure(String text, Units unit) {
    try {
      double value = Double.parseDouble(text.trim()) * unit.metres;
      return value > 0 && value <= 1000 ? OptionalDouble.of(value) : OptionalDouble.empty();
    } catch (NumberFormatException e) {
      return OptionalDouble.empty();
    }
  }
}
