package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.PreferredNumbers;

/** The call sense and the event path. */
final class DomainFigures {
  private static final double VOLTS = 24;
  private static final double HERTZ = 60;
  private static final double SNUBBER_FARADS = 1e-7;
  private static final int CONDUCTORS = 16;

  /** Of 25 m and of 60 m, as the simulated bench takes a cable without a word: 66 pF/m. */
  private static final double FARADS_25 = 1.6e-9;

  private static final double FARADS_60 = 3.9e-9;
  private static final double FARADS_PER_METRE = 66e-12;

  private DomainFigures() {}

  /**
   * @param wettingLeftVolts from the decks' table, sixteen contacts closed
   */
  static void add(Figures figures, String wettingLeftVolts) {
    calls(figures, figures.board());
    figures.text("wetting-left", wettingLeftVolts + " V");
    events(figures);
    stuck(figures);
  }

  private static void calls(Figures figures, BoardDescription board) {
    double burden = figures.nominal("call-burden-ohms");
    double load = figures.nominal("call-load-ohms");
    figures.add("burden-amps", VOLTS / burden, 1e-3, "mA", 1);
    figures.add("burden-watts", VOLTS * VOLTS / burden, 1, "W", 2);
    double reactance = 1 / (2 * Math.PI * HERTZ * SNUBBER_FARADS);
    double left = VOLTS * burden / Math.hypot(burden, reactance);
    figures.add("snubber-ohms", reactance, 1e3, "kohm", 1);
    figures.add("snubber-volts", left, 1, "V", 1);
    figures.add("snubber-peak", left * Math.sqrt(2), 1, "V", 1);
    figures.text("loads-most", Engineering.fixed(board.limit("call-loads-most"), 0));
    figures.add("load-amps", VOLTS / load, 1e-3, "mA", 0);
    figures.add("load-amps-most", board.limit("call-volts") / load, 1e-3, "mA", 0);
    figures.add("contact-amps", figures.nominal("call-wetting-volts") / burden, 1e-3, "mA", 2);
    figures.add("call-delay", figures.most("call-delay-micros"), 1, "µs", 0);
  }

  private static void events(Figures figures) {
    double ohms = figures.nominal("event-wetting-ohms");
    double volts = figures.nominal("event-wetting-volts");
    double divider = figures.nominal("divider-top-ohms") + figures.nominal("divider-bottom-ohms");
    double held =
        figures.nominal("relay-ohms")
            + figures.nominal("switch-ohms")
            + figures.nominal("guard-driver-ohms");
    figures.add("held-ohms", held, 1, "ohm", 1);
    figures.add("event-open-volts", volts * divider / (divider + ohms), 1, "V", 2);
    figures.add("event-joined-ohms", 2 * ohms, 1e3, "kohm", 0);
    double bought = PreferredNumbers.nearest(figures.part("R1001_P1"));
    figures.add("event-bought-ohms", bought, 1e3, "kohm", 2);
    double half = figures.most("event-wetting-volts") / (figures.least("event-wetting-ohms") / 2);
    figures.add("event-half-amps", half, 1e-3, "mA", 2);
    figures.add("event-25", Math.log(2) * ohms * FARADS_25, 1e-6, "µs", 0);
    figures.add("event-60", Math.log(2) * ohms * FARADS_60, 1e-6, "µs", 0);
    figures.add("event-settle", 5 * ohms * 60 * FARADS_PER_METRE, 1e-6, "µs", 0);
    figures.add("event-arm-700", commonPointVolts(figures, 700), 1, "V", 2);
    figures.add("event-arm-100", commonPointVolts(figures, 100), 1, "V", 2);
  }

  /** Of a coded plug whose returned port lies behind such an arm, the others' arms left out. */
  private static double commonPointVolts(Figures figures, double armOhms) {
    double others = (CONDUCTORS - 1) / figures.nominal("event-wetting-ohms");
    return figures.nominal("event-wetting-volts") * others / (others + 1 / armOhms);
  }

  private static void stuck(Figures figures) {
    double ohms = figures.nominal("event-wetting-ohms");
    double amps = figures.nominal("event-wetting-volts") / ohms;
    double most = figures.most("event-wetting-volts") / figures.least("event-wetting-ohms");
    figures.add("event-amps", amps, 1e-3, "mA", 2);
    figures.add("event-all", CONDUCTORS * amps, 1e-3, "mA", 2);
    figures.add("event-all-most", CONDUCTORS * most, 1e-3, "mA", 2);
    figures.add("event-returned", (CONDUCTORS - 1) * amps, 1e-3, "mA", 2);
    figures.add("event-returned-most", (CONDUCTORS - 1) * most, 1e-3, "mA", 2);
    figures.add("event-one-shorted", (CONDUCTORS + 1) * amps, 1e-3, "mA", 2);
    double rail = figures.nominal("supply-volts") - figures.nominal("common-lift-volts");
    figures.add("event-stuck-volts", rail, 1, "V", 1);
    figures.add("event-stuck-amps", rail / ohms, 1e-3, "mA", 2);
    figures.add("event-stuck", CONDUCTORS * rail / ohms, 1e-3, "mA", 2);
    figures.add("event-stuck-returned", (CONDUCTORS - 1) * rail / ohms, 1e-3, "mA", 2);
  }
}
