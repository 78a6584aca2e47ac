package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Times that the board's circuit makes, other than the watchdog's: how long the window stays as
 * with the excitation after that is off, and when the event path sees an opening or a touch.
 */
public final class Times {
  private static final Set<String> HOLD = Set.of("D610", "C612", "R618", "R619", "R620", "U615");
  private static final Set<String> EVENT = Set.of("event-port", "event");
  private static final Set<String> EVENT_KINDS =
      Set.of("resistor", "capacitor", "reference", "comparator");
  private static final double EDGE_SECONDS = 20e-6;

  /** From the terminal to common through what holds a port there: two relays and two switches. */
  private static final int HELD_THROUGH = 2;

  /**
   * @param micros by the nominal parts, and the least and the most at their ends
   * @param least what is allowed, in microseconds
   */
  public record Row(
      String name, double micros, double shortest, double longest, double least, double most) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "| %s | %s | %s to %s | %s |",
          name,
          figure(micros),
          figure(shortest),
          figure(longest),
          least == 0 ? "at most " + figure(most) : figure(least) + " to " + figure(most));
    }

    private static String figure(double micros) {
      return micros >= 1000
          ? String.format(Locale.ROOT, "%.1f ms", micros / 1000)
          : String.format(Locale.ROOT, micros < 1 ? "%.2f µs" : "%.1f µs", micros);
    }
  }

  private final Netlist netlist;
  private final BoardDescription board;

  public Times(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    this.board = board;
  }

  public List<Row> run(Path directory) throws IOException, InterruptedException {
    List<Row> rows = new ArrayList<>();
    double hold = board.limit("window-hold-micros");
    rows.add(
        row("window stays after the excitation", hold / 2, hold, side -> hold(directory, side)));
    for (double farads : new double[] {1.6e-9, 3.9e-9}) {
      double opening = Math.log(2) * board.nominal("event-wetting-ohms") * farads * 1e6;
      double delay = 2 * board.nominal("event-latch-micros");
      rows.add(
          row(
              String.format(Locale.ROOT, "an opening, %.1f nF", farads * 1e9),
              0.9 * opening,
              1.1 * opening + delay,
              side -> event(directory, side, farads, false)));
      rows.add(
          row(
              String.format(Locale.ROOT, "a touch, %.1f nF", farads * 1e9),
              0,
              delay,
              side -> event(directory, side, farads, true)));
    }
    return rows;
  }

  private interface Run {
    double micros(int side) throws IOException, InterruptedException;
  }

  private static Row row(String name, double least, double most, Run run)
      throws IOException, InterruptedException {
    return new Row(name, run.micros(0), run.micros(-1), run.micros(1), least, most);
  }

  private Deck deck(Predicate<Part> wanted) {
    Deck deck = Deck.of(netlist, wanted, Set.of("P1"), board::nominal);
    deck.source("VP", high());
    deck.source("VN", low());
    return deck;
  }

  private double high() {
    return board.nominal("supply-volts") + low();
  }

  private double low() {
    return -board.nominal("common-lift-volts");
  }

  /**
   * @param side -1 for the short end of every part, 1 for the long end, 0 for neither
   */
  private double hold(Path directory, int side) throws IOException, InterruptedException {
    Deck deck = deck(part -> HOLD.contains(part.ref()));
    deck.line(
        "Vask win_ask 0 PWL(0 %1$.9g %2$.9g %1$.9g %3$.9g %4$.9g)",
        high(), EDGE_SECONDS, EDGE_SECONDS + 1e-6, low());
    spread(deck, "C_C612", side);
    spread(deck, "R_R618", side);
    spread(deck, "R_R619", side);
    spread(deck, "R_R620", -side);
    deck.replace("V_U615_flt", side * offsetVolts("U615"));
    return crossing(directory, deck, "v(win_on)", 0, "FALL", "tran 10u 40m 0 20u");
  }

  private double event(Path directory, int side, double farads, boolean touch)
      throws IOException, InterruptedException {
    Deck deck =
        deck(part -> EVENT.contains(part.block()) && EVENT_KINDS.contains(part.line().kind()));
    BoardDescription.Value wetting = board.value("event-wetting-volts");
    double volts = wetting.nominal() - (touch ? -side : side) * wetting.tolerance();
    deck.source("EVB_P1", volts);
    deck.source("REF2", 2.048);
    BoardDescription.Value ohms = board.value("event-wetting-ohms");
    for (String element : List.of("R_R1001_P1", "R_R1002_P1")) {
      deck.replace(element, (ohms.nominal() + side * ohms.tolerance()) / 2);
    }
    int threshold = touch ? -side : side;
    spread(deck, "R_R1010", -threshold);
    spread(deck, "R_R1011", threshold);
    deck.replace("V_U1001_P1_flt", -threshold * offsetVolts("U1001_P1"));
    double held = HELD_THROUGH * (board.nominal("relay-ohms") + board.nominal("switch-ohms"));
    deck.line("C_cable inner_p1 0 %.9g", farads + board.nominal("port-stray-farads"));
    deck.line(
        "Vtouch touch 0 PULSE(%d %d %.9g 10n 10n 1)", touch ? 0 : 1, touch ? 1 : 0, EDGE_SECONDS);
    deck.line("Bheld inner_p1 0 I=v(inner_p1)*(v(touch)/%.9g+1e-12)", held);
    return crossing(
        directory,
        deck,
        "v(evc_p1)",
        (high() + low()) / 2,
        touch ? "FALL" : "RISE",
        "tran 50n 100u 0 50n");
  }

  private void spread(Deck deck, String element, int side) {
    Part part = netlist.part(element.substring(2));
    Double relative = part.line().spread().get("relative");
    if (relative == null) {
      throw new IllegalArgumentException("no spread: part=" + part.ref());
    }
    deck.replace(element, deck.value(element) * (1 + side * relative));
  }

  private double offsetVolts(String ref) {
    return netlist.part(ref).line().spread().getOrDefault("offset-volts", 0.0);
  }

  private static double crossing(
      Path directory, Deck deck, String node, double volts, String edge, String tran)
      throws IOException, InterruptedException {
    String name = "times";
    List<String> control =
        List.of(
            tran,
            String.format(
                Locale.ROOT, "meas tran crossed WHEN %s=%.9g %s=LAST", node, volts, edge));
    String output = Ngspice.run(directory, name, deck.text(name, false, control));
    double at = Printed.rows(output, List.of("crossed"), 1).get(0)[0];
    return (at - EDGE_SECONDS) * 1e6;
  }

  public static String text(List<Row> rows) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Times

        By the nominal parts, and with every part at the end of its spread that makes the time shorter, or longer. An opening:
        the port no longer held at common, its wetting resistor charges the cable up to the threshold; a touch: it is held again.
        To the comparator's output; from there to the latch, one logic gate.

        | time | nominal | at the ends | allowed |
        |---|---|---|---|
        """);
    rows.forEach(row -> out.append(row).append('\n'));
    return out.toString();
  }
}
