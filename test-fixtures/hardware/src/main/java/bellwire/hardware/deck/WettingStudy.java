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

/**
 * What the call sense's wetting supply lets out of XW: into a short, sound and with each single
 * fault, and into the burdens of all sixteen leads.
 */
public final class WettingStudy {
  private static final Set<String> KINDS =
      Set.of("resistor", "bipolar", "diode", "solid-state-relay", "capacitor");
  private static final List<String> PRINTED = List.of("i(vout)", "v(xw)");
  private static final int LEADS = 16;

  /**
   * @param shortAmps out of XW into XC
   * @param loadedVolts on XW with all sixteen contacts closed
   */
  public record Row(String fault, double shortAmps, double loadedVolts) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT, "| %s | %.1f | %.2f |", fault, 1000 * shortAmps, loadedVolts);
    }
  }

  private final BoardDescription board;
  private final Deck deck;

  public WettingStudy(Netlist netlist, BoardDescription board) {
    this.board = board;
    Corner corner = new Corner(board, true);
    deck =
        Deck.of(
            netlist,
            part -> part.block().equals("call-sense") && KINDS.contains(part.line().kind()),
            Set.of(),
            corner::value);
    BoardDescription.Value wetting = board.value("call-wetting-volts");
    deck.source("VCP", wetting.nominal() + wetting.tolerance());
    deck.source("VN", corner.low());
    deck.source("CALL_WETTING", corner.high());
    deck.line("Rxc xc 0 1m");
    deck.line("Vout xw xwl 0");
    deck.line("R_load xwl 0 1e-3");
  }

  /** The sound board first, then each fault, the largest current first. */
  public List<Row> run(Path directory) throws IOException, InterruptedException {
    List<String> names = new ArrayList<>();
    List<String> control = new ArrayList<>();
    one("none", Map.of(), names, control);
    for (Part part : deck.parts()) {
      part.line()
          .faults()
          .forEach(
              (what, altered) -> {
                Map<String, Double> elements = new LinkedHashMap<>();
                altered.forEach((e, v) -> elements.put(e.replace("<ref>", part.ref()), v));
                one(part.ref() + " " + what, elements, names, control);
              });
    }
    String output = Ngspice.run(directory, "wetting", deck.text("wetting", true, control));
    List<double[]> printed = Printed.rows(output, PRINTED, 2 * names.size());
    List<Row> rows = new ArrayList<>();
    for (int f = 0; f < names.size(); f++) {
      rows.add(new Row(names.get(f), Math.abs(printed.get(2 * f)[0]), printed.get(2 * f + 1)[1]));
    }
    rows.subList(1, rows.size()).sort((a, b) -> Double.compare(b.shortAmps(), a.shortAmps()));
    return rows;
  }

  private void one(
      String name, Map<String, Double> altered, List<String> names, List<String> control) {
    names.add(name);
    altered.forEach((element, value) -> control.add(alter(element, value)));
    for (double ohms : new double[] {1e-3, board.nominal("call-burden-ohms") / LEADS}) {
      control.add(alter("R_load", ohms));
      control.add("op");
      PRINTED.forEach(printed -> control.add("print " + printed));
      control.add("destroy all");
    }
    altered.keySet().forEach(element -> control.add(alter(element, deck.value(element))));
  }

  private static String alter(String element, double value) {
    return String.format(
        Locale.ROOT,
        "alter %s%s = %.9g",
        element.toLowerCase(Locale.ROOT),
        element.startsWith("D_") ? " area" : "",
        value);
  }

  public static String text(List<Row> rows) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Wetting supply of the call sense

        Out of XW into a short, limit 20 mA; and the voltage left with all sixteen contacts closed on their burdens, which the
        sound board holds above the dry threshold. Supply high, sensing resistors low. The sound board first, then the worst.

        | fault | mA | V, all closed |
        |---|---|---|
        """);
    rows.forEach(row -> out.append(row).append('\n'));
    return out.toString();
  }
}
