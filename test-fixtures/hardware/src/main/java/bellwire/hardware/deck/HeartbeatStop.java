package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * From the last edge of the heartbeat to open relays: at the corners of the timing parts, and with
 * each single fault of the watchdog and of what feeds the relays.
 */
public final class HeartbeatStop {
  private static final Set<String> BLOCKS = Set.of("watchdog", "relay-feed", "port");
  private static final Set<String> PORT_PARTS =
      Set.of("photovoltaic", "relay-mosfet", "relay-sense", "relay-inductor", "npn", "resistor");
  private static final double LAST_EDGE_SECONDS = 3e-3;
  private static final double RUN_SECONDS = 90e-3;
  private static final double GATE_VOLTS = 1.9;
  private static final Pattern OPENED = Pattern.compile("^topen\\s+=\\s+(\\S+).*$");

  /**
   * @param altered elements of the deck that differ
   */
  public record Case(String name, Map<String, Double> altered) {}

  /**
   * @param seconds from the last edge to relays open for good; 0: they never closed; infinite: they
   *     stayed closed
   */
  public record Row(Case what, double seconds) {
    @Override
    public String toString() {
      String time =
          seconds == 0
              ? "never closed"
              : Double.isInfinite(seconds)
                  ? "stays closed"
                  : String.format(Locale.ROOT, "%.1f", 1000 * seconds);
      return "| " + what.name() + " | " + time + " |";
    }
  }

  private final BoardDescription board;
  private final Deck deck;

  public HeartbeatStop(Netlist netlist, BoardDescription board) {
    this.board = board;
    deck = Deck.of(netlist, HeartbeatStop::takesPart, Set.of("P1"), board::nominal);
    deck.source("VP", board.nominal("supply-volts") - board.nominal("common-lift-volts"));
    deck.source("VN", -board.nominal("common-lift-volts"));
    // Edges at 1, 2 and 3 ms, none after that.
    deck.line(
        "Vheart heartbeat vn PWL(0 0 1m 0 1.00001m %1$g 2m %1$g 2.00001m 0 3m 0 3.00001m %1$g)",
        board.nominal("supply-volts"));
    deck.line("Bxor hb_edge 0 V=v(vn)+v(vp,vn)*%s", exclusive("heartbeat", "hb_late"));
    deck.line("Bfeed_n feed_n 0 V=v(vp)-v(vp,vn)*%s", logic("wd_a"));
    deck.line("Bfeed_b feed_b 0 V=v(vn)+v(vp,vn)*%s", logic("wd_b"));
    deck.line("Rt t_p1 0 1k");
    deck.line("Rinner inner_p1 0 1k");
    deck.line("Ball gate 0 V=v(kg_p1)-min(v(ks_p1),v(kt_p1))");
  }

  private static boolean takesPart(Part part) {
    return BLOCKS.contains(part.block())
        && (!part.block().equals("port") || PORT_PARTS.contains(part.line().name()));
  }

  /** One where a node is above half of the supply. */
  private static String logic(String node) {
    return "(0.5+0.5*tanh(20*(v(" + node + ")-0.5*(v(vp)+v(vn)))))";
  }

  private static String exclusive(String a, String b) {
    return "(0.5-0.5*tanh(20*(v(%1$s)-0.5*(v(vp)+v(vn))))*tanh(20*(v(%2$s)-0.5*(v(vp)+v(vn)))))"
        .formatted(a, b);
  }

  /** The nominal board, and both channels at once at each end of what their parts may be. */
  public List<Case> corners() {
    List<Case> cases = new ArrayList<>();
    cases.add(new Case("nominal", Map.of()));
    for (int side : new int[] {-1, 1}) {
      Map<String, Double> altered = new LinkedHashMap<>();
      BoardDescription.Value ohms = board.value("watchdog-ohms");
      BoardDescription.Value farads = board.value("watchdog-farads");
      for (String n : List.of("0", "1")) {
        altered.put("R_R7" + n + "3", ohms.nominal() + side * ohms.tolerance());
        altered.put("C_C7" + n + "3", farads.nominal() + side * farads.tolerance());
        altered.put("R_R7" + n + "4", 36500 * (1 - side * 0.002));
        altered.put("R_R7" + n + "5", 63400 * (1 + side * 0.002));
        altered.put("V_U7" + n + "2_flt", side * 5e-3);
      }
      cases.add(new Case(side < 0 ? "all parts at the short end" : "all at the long end", altered));
    }
    return cases;
  }

  /** Every single fault of the watchdog and the feed. */
  public List<Case> faults() {
    List<Case> cases = new ArrayList<>();
    for (Part part : deck.parts()) {
      if (part.block().equals("port")) {
        continue;
      }
      part.line()
          .faults()
          .forEach(
              (what, altered) -> {
                Map<String, Double> elements = new LinkedHashMap<>();
                altered.forEach((e, v) -> elements.put(e.replace("<ref>", part.ref()), v));
                cases.add(new Case(part.ref() + " " + what, elements));
              });
    }
    return cases;
  }

  public List<Row> run(Path directory, List<Case> cases) throws IOException, InterruptedException {
    List<String> control = new ArrayList<>();
    for (Case each : cases) {
      each.altered().forEach((element, value) -> control.add(alter(element, value)));
      control.add(String.format(Locale.ROOT, "tran 100u %.9g 0 100u", RUN_SECONDS));
      control.add("echo CASE");
      control.add("meas tran topen WHEN v(gate)=" + GATE_VOLTS + " FALL=LAST");
      control.add(
          String.format(Locale.ROOT, "meas tran tend FIND v(gate) AT=%.9g", RUN_SECONDS - 1e-3));
      control.add("destroy all");
      for (String element : each.altered().keySet()) {
        control.add(alter(element, deck.value(element)));
      }
    }
    String output = Ngspice.run(directory, "heartbeat", deck.text("heartbeat", false, control));
    return rows(cases, output);
  }

  private static String alter(String element, double value) {
    return String.format(
        Locale.ROOT,
        "alter %s%s = %.9g",
        element.toLowerCase(Locale.ROOT),
        element.startsWith("D_") ? " area" : "",
        value);
  }

  private static List<Row> rows(List<Case> cases, String output) throws IOException {
    String[] parts = output.split("CASE\n");
    if (parts.length != cases.size() + 1) {
      throw new IOException("ngspice ran " + (parts.length - 1) + " of " + cases.size());
    }
    List<Row> rows = new ArrayList<>();
    for (int c = 0; c < cases.size(); c++) {
      double opened = Double.NaN;
      double end = Double.NaN;
      for (String line : parts[c + 1].split("\n")) {
        Matcher matcher = OPENED.matcher(line.strip());
        if (matcher.matches()) {
          opened = Double.parseDouble(matcher.group(1));
        } else if (line.startsWith("tend")) {
          end = Double.parseDouble(line.split("=")[1].trim().split("\\s+")[0]);
        }
      }
      if (Double.isNaN(end)) {
        throw new IOException("ngspice did not finish " + cases.get(c).name());
      }
      double seconds =
          end > GATE_VOLTS
              ? Double.POSITIVE_INFINITY
              : Double.isNaN(opened) ? 0 : Math.max(0, opened - LAST_EDGE_SECONDS);
      rows.add(new Row(cases.get(c), seconds));
    }
    return rows;
  }

  public static String text(List<Row> corners, List<Row> faults) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # The heartbeat stops

        Milliseconds from the last edge to open relays: not before 50, open by 60. Timing parts at the ends of what
        tolerance, temperature and years make of them, both channels at once.

        | parts | ms |
        |---|---|
        """);
    corners.forEach(row -> out.append(row).append('\n'));
    out.append(
        """

        With one fault in the watchdog or in what feeds the relays, the slowest first; the two channels stand in for each
        other, so no fault holds the relays closed.

        | fault | ms |
        |---|---|
        """);
    faults.stream()
        .sorted((a, b) -> Double.compare(b.seconds(), a.seconds()))
        .forEach(row -> out.append(row).append('\n'));
    return out.toString();
  }
}
