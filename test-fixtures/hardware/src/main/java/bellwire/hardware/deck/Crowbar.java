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

/**
 * The crowbar of the cable side's supply: what it takes while the supply is as it should be, and
 * where it holds it when the regulator lets all through that the isolated converter gives.
 */
public final class Crowbar {
  private static final Set<String> PARTS = Set.of("U103", "R101", "R102", "R103", "Q101");
  private static final List<String> PRINTED = List.of("v(vp)", "i(v_vn)");

  /** More than the isolated converter's rated power can drive into 3.5 V, in amperes. */
  private static final double[] AMPS = {0.02, 0.1, 0.3, 0.6};

  /**
   * @param quietAmps taken at the highest sound supply
   * @param volts between the rails at each of the currents
   */
  public record Row(String parts, double quietAmps, double[] volts) {
    @Override
    public String toString() {
      StringBuilder row = new StringBuilder();
      row.append(String.format(Locale.ROOT, "| %s | %.2f |", parts, 1000 * quietAmps));
      for (double each : volts) {
        row.append(String.format(Locale.ROOT, " %.3f |", each));
      }
      return row.toString();
    }
  }

  private final Netlist netlist;
  private final BoardDescription board;

  public Crowbar(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    this.board = board;
  }

  /** Nominal parts, then those of the lowest and of the highest voltage. */
  public List<Row> run(Path directory) throws IOException, InterruptedException {
    List<Row> rows = new ArrayList<>();
    rows.add(row(directory, "nominal", 0));
    rows.add(row(directory, "lowest", -1));
    rows.add(row(directory, "highest", 1));
    return rows;
  }

  private Row row(Path directory, String name, int side) throws IOException, InterruptedException {
    Deck deck = Deck.of(netlist, part -> PARTS.contains(part.ref()), Set.of(), board::nominal);
    deck.source("VN", 0);
    // A reference that is high by a share acts as a divider that gives less by as much.
    double lower = deck.value("R_R102") * (1 - side * relative("R102"));
    double upper = deck.value("R_R101") * (1 + side * relative("R101"));
    deck.replace("R_R102", lower);
    deck.replace("R_R101", (1 + upper / lower) * (1 + side * relative("U103")) * lower - lower);
    BoardDescription.Value supply = board.value("supply-volts");
    deck.line("Vtop top 0 %.9g", supply.nominal() + supply.tolerance());
    deck.line("R_tie top vp 1e-3");
    deck.line("Iinto 0 vp 0");
    List<String> control = new ArrayList<>();
    control.add("op");
    PRINTED.forEach(printed -> control.add("print " + printed));
    control.add("alter r_tie = 1e12");
    for (double amps : AMPS) {
      control.add(String.format(Locale.ROOT, "alter iinto = %.9g", amps));
      control.add("op");
      PRINTED.forEach(printed -> control.add("print " + printed));
    }
    String output = Ngspice.run(directory, "crowbar", deck.text("crowbar", true, control));
    List<double[]> printed = Printed.rows(output, PRINTED, 1 + AMPS.length);
    double[] volts = new double[AMPS.length];
    for (int i = 0; i < AMPS.length; i++) {
      volts[i] = printed.get(i + 1)[0];
    }
    return new Row(name, Math.abs(printed.get(0)[1]), volts);
  }

  private double relative(String ref) {
    Part part = netlist.part(ref);
    Double relative = part.line().spread().get("relative");
    if (relative == null) {
      throw new IllegalArgumentException("no spread: part=" + ref);
    }
    return relative;
  }

  public static String text(List<Row> rows) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Crowbar

        Volts between the rails of the cable side's supply while a regulator that lets all through drives a current into them;
        and what the crowbar takes of a sound supply at its highest. Parts nominal, and all at the ends of their spreads.

        | parts | mA at 3.37 V | 0.02 A | 0.1 A | 0.3 A | 0.6 A |
        |---|---|---|---|---|---|
        """);
    rows.forEach(row -> out.append(row).append('\n'));
    return out.toString();
  }
}
