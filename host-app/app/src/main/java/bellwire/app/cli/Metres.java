package bellwire.app.cli;

import java.util.Locale;
import java.util.OptionalDouble;

/** Lengths of a run as people type them: '24.5 m' or '80 ft'. */
final class Metres {
  private static final double METRES_PER_FOOT = 0.3048;
  private static final double MOST_METRES = 1000;

  private Metres() {}

  /** Metres; empty for what is no length, or is longer than any run. */
  static OptionalDouble parse(String words) {
    String text = words.trim().toLowerCase(Locale.ROOT);
    boolean inFeet = text.endsWith("ft");
    try {
      String figure = text.substring(0, Math.max(0, text.length() - (inFeet ? 2 : 1))).trim();
      double metres = Double.parseDouble(figure) * (inFeet ? METRES_PER_FOOT : 1);
      if ((inFeet || text.endsWith("m")) && metres > 0 && metres <= MOST_METRES) {
        return OptionalDouble.of(metres);
      }
    } catch (NumberFormatException e) {
      // as for what is no length
    }
    return OptionalDouble.empty();
  }

  /** What an option takes. */
  static String wrong(String option, String typed) {
    return option + " takes up to 1000 m, such as '24.5 m' or '80 ft', not '" + typed + "'";
  }
}
