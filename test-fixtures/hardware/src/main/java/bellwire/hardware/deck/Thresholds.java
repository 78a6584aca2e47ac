package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/**
 * The comparators' thresholds, of boards drawn within the spreads of their parts. ngspice gives the
 * divided input and the reference voltages of each drawn board; where they meet, a comparator's own
 * offset added, is the threshold.
 */
public final class Thresholds {
  private static final Set<String> BLOCKS =
      Set.of(
          "excitation", "port", "interlock-port", "interlock", "event", "call-lead", "call-sense");
  private static final Set<String> KINDS =
      Set.of("resistor", "reference", "amplifier", "changeover", "shunt-regulator");
  private static final List<String> PRINTED =
      List.of(
          "v(mo_p1)",
          "v(win_high)",
          "v(win_low)",
          "v(ev_th)",
          "v(lv_x1)",
          "v(call_high)",
          "v(call_low)");

  /**
   * A threshold over the drawn boards, in volts at the terminal or lead.
   *
   * @param least what is allowed at the lower end
   */
  public record Row(String name, double least, double most, double[] drawn) {
    public double lowest() {
      return java.util.Arrays.stream(drawn).min().orElseThrow();
    }

    public double highest() {
      return java.util.Arrays.stream(drawn).max().orElseThrow();
    }

    /** How much of the allowed half-width is used at the worse end. */
    public double share() {
      double middle = (least + most) / 2;
      return Math.max(highest() - middle, middle - lowest()) / ((most - least) / 2);
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "| %s | %.3f to %.3f | %.3f | %.3f | %.0f %% |",
          name,
          least,
          most,
          lowest(),
          highest(),
          100 * share());
    }
  }

  private final BoardDescription board;
  private final Deck deck;
  private final Spread spread;

  public Thresholds(Netlist netlist, BoardDescription board, long seed) {
    this.board = board;
    spread = new Spread(board, new Random(seed));
    deck =
        Deck.of(
            netlist,
            part -> BLOCKS.contains(part.block()) && KINDS.contains(part.line().kind()),
            Set.of("P1", "X1"),
            board::nominal);
    deck.source("VP", board.nominal("supply-volts") - board.nominal("common-lift-volts"));
    deck.source("VN", -board.nominal("common-lift-volts"));
    deck.source("VCP", 5);
    deck.source("VCN", -5);
    deck.line("Rxc xc 0 1m");
    for (String net : List.of("T_P1", "LEAD_X1", "WIN_ON", "CALL_WET", "EX_ON")) {
      deck.source(net, 0);
    }
  }

  /** Thresholds of so many drawn boards, the one that uses most of what is allowed first. */
  public List<Row> run(Path directory, int boards) throws IOException, InterruptedException {
    List<String> control = new ArrayList<>();
    List<double[]> offsets = new ArrayList<>();
    for (int b = 0; b < boards; b++) {
      for (Part part : deck.parts()) {
        spread.draw(part, control);
      }
      // Inputs of 0 V with the narrow window and the high call threshold, then 1 V with the others.
      look(0, -0.8, 0, control);
      look(1, 2.5, 5, control);
      offsets.add(
          new double[] {
            offset("comparator-open"), offset("comparator"), offset("comparator-call")
          });
    }
    String output = Ngspice.run(directory, "thresholds", deck.text("thresholds", true, control));
    return rows(Printed.rows(output, PRINTED, 2 * boards), offsets);
  }

  private void look(double input, double window, double wetting, List<String> control) {
    control.add(String.format(Locale.ROOT, "alter v_t_p1 = %.6g", input));
    control.add(String.format(Locale.ROOT, "alter v_lead_x1 = %.6g", input));
    control.add(String.format(Locale.ROOT, "alter v_win_on = %.6g", window));
    control.add(String.format(Locale.ROOT, "alter v_call_wet = %.6g", wetting));
    control.add("op");
    PRINTED.forEach(name -> control.add("print " + name));
    control.add("destroy all");
  }

  private double offset(String line) {
    return spread.within(
        bellwire.hardware.PartsList.revisionA()
            .line(line)
            .spread()
            .getOrDefault("offset-volts", Double.NaN));
  }

  private List<Row> rows(List<double[]> looks, List<double[]> offsets) {
    double[][] drawn = new double[9][offsets.size()];
    for (int b = 0; b < offsets.size(); b++) {
      double[] zero = looks.get(2 * b);
      double[] one = looks.get(2 * b + 1);
      double[] own = offsets.get(b);
      int row = 0;
      for (double[] look : List.of(zero, one)) {
        drawn[row++][b] = (look[1] + own[0] - zero[0]) / (one[0] - zero[0]);
        drawn[row++][b] = (look[2] + own[0] - zero[0]) / (one[0] - zero[0]);
      }
      drawn[row++][b] = zero[3] + own[1];
      for (double[] look : List.of(zero, one)) {
        drawn[row++][b] = (look[5] + own[2] - zero[4]) / (one[4] - zero[4]);
        drawn[row++][b] = (look[6] + own[2] - zero[4]) / (one[4] - zero[4]);
      }
    }
    return named(drawn);
  }

  private List<Row> named(double[][] drawn) {
    double error = board.limit("window-error-volts");
    double off = board.limit("window-volts");
    BoardDescription.Value event = board.value("event-threshold-volts");
    BoardDescription.Value call = board.value("call-threshold-volts");
    BoardDescription.Value dry = board.value("call-dry-threshold-volts");
    List<Row> rows = new ArrayList<>();
    rows.add(row("window, excitation off, upper", off, error, drawn[0]));
    rows.add(row("window, excitation off, lower", -off, error, drawn[1]));
    rows.add(
        row("window, excitation on, upper", board.limit("window-high-volts"), error, drawn[2]));
    rows.add(row("window, excitation on, lower", board.limit("window-low-volts"), error, drawn[3]));
    rows.add(row("event path", event.nominal(), event.tolerance(), drawn[4]));
    rows.add(row("call, AC, upper", call.nominal(), call.tolerance(), drawn[5]));
    rows.add(row("call, AC, lower", -call.nominal(), call.tolerance(), drawn[6]));
    rows.add(row("call, dry, upper", dry.nominal(), dry.tolerance(), drawn[7]));
    rows.add(row("call, dry, lower", -dry.nominal(), dry.tolerance(), drawn[8]));
    rows.sort((a, b) -> Double.compare(b.share(), a.share()));
    return rows;
  }

  private static Row row(String name, double nominal, double halfWidth, double[] drawn) {
    return new Row(name, nominal - halfWidth, nominal + halfWidth, drawn);
  }

  public static String text(List<Row> rows, int boards, long seed) {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Thresholds

            %d boards drawn within the spreads of parts-a.yaml and the tolerances of sensing-board-a.yaml, seed %d; volts at a
            terminal or a lead. The share is of the allowed half-width, at the worse end.

            | threshold | allowed | lowest | highest | share |
            |---|---|---|---|---|
            """,
            boards,
            seed));
    rows.forEach(row -> out.append(row).append('\n'));
    return out.toString();
  }
}
