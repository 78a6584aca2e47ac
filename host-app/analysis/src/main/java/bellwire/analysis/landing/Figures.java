package bellwire.analysis.landing;

import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.Collection;
import java.util.List;
import java.util.Locale;

/** Figures in words. */
final class Figures {
  private Figures() {}

  static String rating(FuseResult fuse) {
    return String.format(Locale.ROOT, "%s (%s A)", fuse.name(), number(fuse.ratedAmps()));
  }

  /** Up to two significant decimals, no trailing zeros. */
  static String number(double value) {
    String text = String.format(Locale.ROOT, value < 0.1 ? "%.3f" : "%.2f", value);
    return text.replaceFirst("\\.?0+$", "");
  }

  /** Such as 'gas valve gets 3.1 V (pulls in at 18 V)'. */
  static String gets(LoadResult load) {
    return String.format(
        Locale.ROOT,
        "%s gets %.1f V (pulls in at %s V)",
        load.load().name(),
        load.volts(),
        number(load.load().pickUpVolts()));
  }

  /** Such as 'fan relay: 26.1 V, 0.24 A'. */
  static String on(LoadResult load) {
    return String.format(
        Locale.ROOT, "%s: %.1f V, %.2f A", load.load().name(), load.volts(), load.amps());
  }

  /** Such as 'a, b and c'. */
  static String listed(Collection<String> names) {
    List<String> all = List.copyOf(names);
    if (all.size() < 2) {
      return String.join("", all);
    }
    return String.join(", ", all.subList(0, all.size() - 1)) + " and " + all.get(all.size() - 1);
  }
}
