package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.deck.BenchReadings;
import bellwire.hardware.deck.BenchReadings.Reading;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the bring-up and the yearly check expect. */
final class BringUpFigures {
  /** Edges of the agent in the time that the watchdog allows: bellwire.agent.Heartbeat. */
  private static final int EDGES = 5;

  /** A light-emitting diode at 5 mA, from memory. */
  private static final double MOST_LED_VOLTS = 1.5;

  /** Put behind the series resistor onto a port that the guard bus holds. */
  private static final double HELD_VOLTS = 0.9;

  private BringUpFigures() {}

  static void add(Figures figures, TestPointTable readings, Tables tables) {
    supply(figures, readings);
    interlock(figures, readings, figures.board());
    watchdog(figures, readings, figures.board(), tables);
    excitation(figures, readings);
    references(figures);
    calls(figures, figures.board(), tables.wetting());
    DomainFigures.add(figures, row(tables.wetting(), "none", 2));
  }

  /**
   * Tables of the decks that figures are read from.
   *
   * @param heartbeat {@code tables/heartbeat.md}
   * @param wetting {@code tables/wetting.md}
   * @param foreign {@code tables/foreign.md}
   */
  record Tables(String heartbeat, String wetting, String foreign) {}

  private static void supply(Figures figures, TestPointTable readings) {
    range(figures, "supply-range", "supply-volts", 1, "V", 2);
    figures.text("vn-rest", TestPointTable.range(readings.reading("rest", "VN"), 2) + " V");
    figures.text("vp-rest", TestPointTable.range(readings.reading("rest", "VP"), 2) + " V");
    range(figures, "crowbar-range", "crowbar-volts", 1, "V", 2);
  }

  private static void range(
      Figures figures, String name, String value, double scale, String unit, int decimals) {
    figures.range(name, figures.least(value), figures.most(value), scale, unit, decimals);
  }

  private static void interlock(Figures figures, TestPointTable readings, BoardDescription board) {
    text(figures, "trip-inside", readings.reading("rest", "TRIP_ANY"), 2);
    text(figures, "trip-outside", readings.reading("outside", "TRIP_ANY"), 2);
    double error = board.limit("window-error-volts");
    double off = board.limit("window-volts");
    edge(figures, "window-off-high", off, error);
    edge(figures, "window-off-low", -off, error);
    edge(figures, "window-on-high", board.limit("window-high-volts"), error);
    edge(figures, "window-on-low", board.limit("window-low-volts"), error);
    figures.add("window-hold", board.limit("window-hold-micros"), 1e3, "ms", 0);
    figures.add("detect", board.limit("detect-micros"), 1, "µs", 0);
  }

  private static void edge(Figures figures, String name, double volts, double error) {
    figures.range(name, volts - error, volts + error, 1, "V", 2);
  }

  private static void text(Figures figures, String name, Reading reading, int decimals) {
    figures.text(name, TestPointTable.range(reading, decimals) + " V");
  }

  private static void watchdog(
      Figures figures, TestPointTable readings, BoardDescription board, Tables tables) {
    String heartbeat = tables.heartbeat();
    text(figures, "k-supply-rest", readings.reading("rest", "K_SUPPLY"), 2);
    double period = board.limit("heartbeat-micros") / EDGES;
    figures.add("edge-period", period, 1e3, "ms", 0);
    double time = figures.nominal("watchdog-ohms") * figures.nominal("watchdog-farads");
    double peak = figures.nominal("supply-volts") * -Math.expm1(-1e-6 * period / time);
    figures.add("watchdog-peak", peak - figures.nominal("common-lift-volts"), 1, "V", 2);
    figures.text(
        "heartbeat-range",
        row(heartbeat, "all parts at the short end", 1)
            + " to "
            + row(heartbeat, "all at the long end", 1)
            + " ms");
    opening(figures, tables.foreign());
    double held =
        HELD_VOLTS
            / BenchReadings.SERIES_OHMS
            * (figures.nominal("relay-ohms")
                + figures.nominal("switch-ohms")
                + figures.nominal("guard-driver-ohms"));
    figures.add("held-millivolts", held, 1e-3, "mV", 1);
    double led = figures.partOf("U401_P1").line().draws().getOrDefault("led-volts", Double.NaN);
    double least = figures.least("supply-volts") - MOST_LED_VOLTS - 0.1;
    figures.range("led-drop", least, figures.most("supply-volts") - led, 1, "V", 1);
  }

  /** From the latch to open relays, over the rows of the table. */
  private static void opening(Figures figures, String foreign) {
    Matcher row =
        Pattern.compile("^\\| P.* \\| [0-9.]+ \\| ([0-9.]+) \\| ([0-9.]+) \\|$", Pattern.MULTILINE)
            .matcher(foreign);
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    while (row.find()) {
      double micros = Double.parseDouble(row.group(2)) - Double.parseDouble(row.group(1));
      least = Math.min(least, micros);
      most = Math.max(most, micros);
    }
    if (most == 0) {
      throw new IllegalStateException("no rows of opening relays");
    }
    figures.range("relay-open-deck", least, most, 1, "µs", 0);
  }

  /** A cell of a table's row, counted from the one after its name. */
  private static String row(String table, String name, int column) {
    Matcher row =
        Pattern.compile("^\\| " + Pattern.quote(name) + " \\|(.*)\\|$", Pattern.MULTILINE)
            .matcher(table);
    if (!row.find()) {
      throw new IllegalStateException("no row=" + name);
    }
    return row.group(1).split("\\|")[column - 1].strip();
  }

  private static void excitation(Figures figures, TestPointTable readings) {
    Reading shorted = readings.reading("shorted", "amps");
    figures.range("short-range", shorted.lowest(), shorted.highest(), 1e-3, "mA", 2);
    text(figures, "driven-open", readings.reading("driven", "T_P1"), 2);
    // Both limiters in series: what the source's and the resistors' tolerances leave.
    Reading source = readings.reading("check-low", "EX_OUT");
    Reading bus = readings.reading("check-low", "DRIVE");
    double half = (source.nominal() - bus.nominal()) / 2;
    double share =
        (figures.most("excitation-volts") / figures.nominal("excitation-volts") - 1)
            + (figures.most("limiter-ohms") / figures.nominal("limiter-ohms") - 1);
    figures.range("limiter-drop", half * (1 - share), half * (1 + share), 1, "V", 3);
    figures.add("sunk", BenchReadings.SUNK_AMPS, 1e-3, "mA", 1);
    Reading guard = readings.reading("sinking", "GUARD");
    double most = Math.max(Math.abs(guard.lowest()), Math.abs(guard.highest()));
    figures.add("guard-sinking", Math.ceil(1e4 * most) / 1e4, 1e-3, "mV", 1);
    text(figures, "ti-high", readings.reading("check-high", "TI_OUT"), 3);
    figures.add("relay-ohms", figures.nominal("relay-ohms"), 1, "ohm", 1);
    figures.add("switch-ohms", figures.nominal("switch-ohms"), 1, "ohm", 1);
  }

  private static void references(Figures figures) {
    range(figures, "low-reference-range", "low-reference-ohms", 1, "ohm", 2);
    double off = figures.nominal("switch-ohms");
    figures.range(
        "mid-reference-range",
        figures.least("mid-reference-ohms") - off,
        figures.most("mid-reference-ohms") - off,
        1,
        "ohm",
        1);
    range(figures, "high-reference-range", "high-reference-ohms", 1e6, "Mohm", 4);
    range(figures, "check-low-range", "check-low-ohms", 1, "ohm", 1);
    range(figures, "check-high-range", "check-high-ohms", 1e6, "Mohm", 2);
  }

  private static void calls(Figures figures, BoardDescription board, String wetting) {
    double divider = figures.part("R1102_X1") + figures.part("R1103_X1");
    double burden = figures.nominal("call-burden-ohms");
    double lead = burden * divider / (burden + divider);
    double load = figures.nominal("call-load-ohms");
    figures.add("lead-ohms", lead, 1e3, "kohm", 2);
    figures.add("loaded-lead-ohms", lead * load / (lead + load), 1, "ohm", 0);
    range(figures, "call-range", "call-threshold-volts", 1, "V", 1);
    range(figures, "dry-range", "call-dry-threshold-volts", 1, "V", 1);
    figures.range(
        "wetting-open",
        figures.least("call-wetting-volts") - 0.4,
        figures.most("call-wetting-volts"),
        1,
        "V",
        1);
    figures.text("wetting-short-most", row(wetting, "none", 1) + " mA");
    figures.text("wetting-second", row(wetting, "R1210 short", 1) + " mA");
    figures.text("wetting-first", row(wetting, "R1212 short", 1) + " mA");
    figures.add("wetting-limit", board.limit("call-wetting-amps"), 1e-3, "mA", 0);
  }
}
