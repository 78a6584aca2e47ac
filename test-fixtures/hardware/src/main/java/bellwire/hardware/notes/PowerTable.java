package bellwire.hardware.notes;

import bellwire.hardware.notes.PowerBudget.Draw;
import bellwire.hardware.notes.PowerBudget.State;
import java.util.List;
import java.util.Locale;

/** The power budget as a page of tables. */
final class PowerTable {
  private static final List<String> SUPPLIES = List.of("VP", "VCP", "VCN", "PI_3V3");

  private PowerTable() {}

  static String text(PowerBudget budget) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Power budget

        Milliamperes, supplies at their high end, each chip at the most that parts-a.yaml gives it (from memory), diodes and
        resistors by the netlist. VP: the cable side's 3.3 V, and so its 5 V. VCP, VCN: the call sense's ±5 V.

        """);
    out.append("| taken of | by |");
    for (State state : State.values()) {
      out.append(' ').append(state.title).append(" |");
    }
    out.append("\n|---|---|").append("---|".repeat(State.values().length)).append('\n');
    for (String supply : SUPPLIES) {
      budget.draws().stream()
          .filter(draw -> draw.supply().equals(supply))
          .forEach(draw -> out.append(row(draw)));
      out.append("| **").append(supply).append("** | **sum** |");
      for (State state : State.values()) {
        out.append(" **")
            .append(PowerBudget.milliamperes(budget.amps(supply, state)))
            .append("** |");
      }
      out.append('\n');
    }
    out.append("| **PI_5V** | **both isolated supplies' inputs** |");
    for (State state : State.values()) {
      out.append(" **").append(PowerBudget.milliamperes(budget.fromPi(state))).append("** |");
    }
    return out.append("\n\n").append(capacities(budget)).toString();
  }

  private static String row(Draw draw) {
    StringBuilder row = new StringBuilder("| " + draw.supply() + " | " + draw.what() + " |");
    for (State state : State.values()) {
      row.append(' ')
          .append(draw.when().contains(state) ? PowerBudget.milliamperes(draw.amps()) : "")
          .append(" |");
    }
    return row.append('\n').toString();
  }

  private static String capacities(PowerBudget budget) {
    StringBuilder out = new StringBuilder();
    out.append(
        "| supply | gives mA | most taken | share | least taken | share |\n"
            + "|---|---|---|---|---|---|\n");
    for (String supply : List.of("VP", "VCP", "VCN", "PI_5V")) {
      double most = 0;
      double least = Double.POSITIVE_INFINITY;
      for (State state : State.values()) {
        double amps = supply.equals("PI_5V") ? budget.fromPi(state) : budget.amps(supply, state);
        most = Math.max(most, amps);
        least = Math.min(least, amps);
      }
      double gives = budget.capacityAmps(supply);
      out.append(
          String.format(
              Locale.ROOT,
              "| %s | %.0f | %s | %.0f %% | %s | %.0f %% |%n",
              supply,
              1000 * gives,
              PowerBudget.milliamperes(most),
              100 * most / gives,
              PowerBudget.milliamperes(least),
              100 * least / gives));
    }
    return out.toString();
  }
}
