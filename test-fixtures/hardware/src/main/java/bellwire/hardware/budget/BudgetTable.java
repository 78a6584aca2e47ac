package bellwire.hardware.budget;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The budgets as {@code hardware-notes/tables/budget.md}. */
public final class BudgetTable {
  /** Of the whole: what is less comes of rounding. */
  private static final double LEAST = 1e-7;

  private BudgetTable() {}

  public static String text(List<Rung> rungs, List<ConductorBudget> conductors) {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Uncertainty budget of a resistance

        By [sensing-board-a.yaml](../sensing-board-a.yaml) and theory (125): sensitivities from the board's circuit, solved node by
        node with each input moved by its u; nothing of the host's own arithmetic is in it. Between two ports as seen at
        their terminals, clamps included; two conductors and M, three repeats. Hum: 5 mV in each conductor, 3 pF to 230 V, 0.1 % off
        the converter's notch. The board within 15 K of 20 °C.

        Inputs that are alike, of both ports or of each reading, stand on one line, their contributions added in squares; '–' is less than a
        thousandth of the whole. 'Alone': the same reading with the current not reversed and nothing subtracted. U = 2 u. The effective degrees of freedom are
        above 10 000 where none are given: two to four lines of known half-width carry each result, so 2 u covers 95 to 99 %.

        | range | R | u | u/R | U | alone, u | gains | largest |
        |---|---|---|---|---|---|---|---|
        """);
    for (Rung rung : rungs) {
      ErrorBudget budget = rung.budget();
      List<Alike> lines = alike(budget);
      out.append(
          String.format(
              Locale.ROOT,
              "| %s | %s | %s | %s | %s | %s | %d, %d | %s; %s |%n",
              rung.range(),
              ohms(rung.ohms()),
              ohms(budget.u()),
              rung.ohms() == 0 ? "–" : share(budget.u() / rung.ohms()),
              ohms(2 * budget.u()) + freedom(budget),
              ohms(budget.uAlone()),
              rung.gain(),
              rung.referenceGain(),
              lines.get(0).name(),
              lines.get(1).name()));
    }
    conductors(out, conductors);
    rungs.forEach(rung -> lines(out, rung));
    return out.toString();
  }

  /** What is left of a resistance near nothing, as the notes' own page has it. */
  public static String least(List<Rung> rungs) {
    return "Below 1 ohm it is " + ohms(rungs.get(0).budget().u());
  }

  /** A row for each range, as the notes' own page has them. */
  public static List<String> summary(List<Rung> rungs) {
    Map<String, List<Rung>> ranges = new LinkedHashMap<>();
    for (Rung rung : rungs) {
      if (rung.ohms() >= 1) {
        ranges.computeIfAbsent(rung.range(), range -> new ArrayList<>()).add(rung);
      }
    }
    List<String> rows = new ArrayList<>();
    ranges.forEach((range, within) -> rows.add(row(range, within)));
    return rows;
  }

  private static String row(String range, List<Rung> rungs) {
    DoubleSummaryStatistics shares =
        rungs.stream().mapToDouble(rung -> rung.budget().u() / rung.ohms()).summaryStatistics();
    double alone =
        rungs.stream().mapToDouble(rung -> rung.budget().uAlone() / rung.ohms()).max().orElse(0);
    return String.format(
        Locale.ROOT,
        "| %s | %s to %s | %s to %s | %s |",
        range,
        ohms(rungs.get(0).ohms()),
        ohms(rungs.get(rungs.size() - 1).ohms()),
        share(shares.getMin()),
        share(shares.getMax()),
        share(alone));
  }

  private static void conductors(StringBuilder out, List<ConductorBudget> conductors) {
    out.append(
        """

        ## A conductor by its plug

        Clamp and plug contact 2 to 20 mohm each, fresh at every seating; the plug's arm within its tolerance and 15 K.

        | plug, arm | R | u | contacts | arm's tolerance | arm's temperature | reading |
        |---|---|---|---|---|---|---|
        """);
    for (ConductorBudget each : conductors) {
      out.append(
          String.format(
              Locale.ROOT,
              "| %s | %s | %s | %s | %s | %s | %s |%n",
              each.plug(),
              ohms(each.ohms()),
              ohms(each.budget().u()),
              ohms(each.budget().u("contact")),
              ohms(each.budget().u("arm's tolerance")),
              ohms(each.budget().u("arm's temperature")),
              ohms(each.readingU())));
    }
  }

  /** Inputs that are alike, of both ports, gains or readings, on one line. */
  private record Alike(String name, Input input, int count, double slope, double u, double alone) {
    static Alike of(String name, List<ErrorBudget.Line> lines) {
      double slope = 0;
      double u = 0;
      double alone = 0;
      for (ErrorBudget.Line line : lines) {
        slope = Math.max(slope, Math.abs(line.sensitivity()));
        u = Math.hypot(u, line.u());
        alone = Math.hypot(alone, line.uAlone());
      }
      return new Alike(name, lines.get(0).input(), lines.size(), slope, u, alone);
    }
  }

  private static List<Alike> alike(ErrorBudget budget) {
    Map<String, List<ErrorBudget.Line>> groups = new LinkedHashMap<>();
    for (ErrorBudget.Line line : budget.lines()) {
      String name =
          line.input()
              .name()
              .replaceAll(" of [ab]\\b| at \\d+|, (?:forward|back|excited|silent)$", "");
      groups.computeIfAbsent(name, key -> new ArrayList<>()).add(line);
    }
    List<Alike> rows = new ArrayList<>();
    groups.forEach((name, lines) -> rows.add(Alike.of(name, lines)));
    rows.sort((x, y) -> Double.compare(y.u(), x.u()));
    return rows;
  }

  private static void lines(StringBuilder out, Rung rung) {
    ErrorBudget budget = rung.budget();
    out.append(
        String.format(
            Locale.ROOT,
            """

            ## %s, %s

            | input | how many | distribution | size | sensitivity | contribution | alone |
            |---|---|---|---|---|---|---|
            """,
            ohms(rung.ohms()),
            rung.range()));
    for (Alike row : alike(budget)) {
      out.append(
          String.format(
              Locale.ROOT,
              "| %s | %d | %s | %s | %s | %s | %s |%n",
              row.name(),
              row.count(),
              row.input().shape(),
              size(row.input()),
              per(
                  row.slope() * row.input().u() < LEAST * budget.u() ? 0 : row.slope(),
                  row.input().unit()),
              atLeast(row.u(), budget.u()),
              atLeast(row.alone(), budget.uAlone())));
    }
    out.append(
        String.format(
            Locale.ROOT,
            "| **all** | %d | | | | **%s** | %s |%n",
            budget.lines().size(),
            ohms(budget.u()),
            ohms(budget.uAlone())));
  }

  /** Nothing below a thousandth of the whole: rounding of the difference quotients is there. */
  private static String atLeast(double u, double all) {
    return u < 1e-3 * all ? "–" : ohms(u);
  }

  private static String freedom(ErrorBudget budget) {
    double degrees = budget.effectiveDegreesOfFreedom();
    return degrees > 1e4 ? "" : String.format(Locale.ROOT, " (%.0f degrees of freedom)", degrees);
  }

  private static String per(double slope, String unit) {
    if (slope == 0) {
      return "0";
    }
    String number = String.format(Locale.ROOT, "%.1e", slope).replaceFirst("e([-+])0?", "·10^$1");
    number = number.replace("^+", "^").replace("·10^0", "");
    return switch (unit) {
      case "" -> number + " ohm";
      case "ohm" -> number;
      case "/V" -> number + " ohm V";
      default -> number + " ohm/" + unit;
    };
  }

  private static String size(Input input) {
    return input.unit().isEmpty()
        ? String.format(Locale.ROOT, "%.2g", input.size())
        : input.unit().equals("/V")
            ? String.format(Locale.ROOT, "%.2g /V", input.size())
            : prefixed(input.size(), input.unit());
  }

  private static String share(double relative) {
    return relative >= 1e-3
        ? digits(100 * relative) + " %"
        : String.format(Locale.ROOT, "%.0f ppm", 1e6 * relative);
  }

  private static String digits(double x) {
    return new BigDecimal(x).round(new MathContext(2)).toPlainString();
  }

  static String ohms(double ohms) {
    return ohms < 1e-9 ? "0" : prefixed(ohms, "ohm");
  }

  /** Two digits and a prefix, from p to M. */
  private static String prefixed(double x, String unit) {
    if (x == 0) {
      return "0 " + unit;
    }
    String[] prefixes = {"f", "p", "n", "µ", "m", "", "k", "M"};
    // Rounded first: 0.0999 is 100 m.
    double rounded = Double.parseDouble(String.format(Locale.ROOT, "%.1e", x));
    int step = (int) Math.floor(Math.log10(rounded) / 3 + 1e-9);
    step = Math.max(-5, Math.min(2, step));
    double scaled = rounded / Math.pow(1000, step);
    String digits = scaled < 10 ? "%.1f" : "%.0f";
    return String.format(Locale.ROOT, digits, scaled).replaceFirst("\\.0$", "")
        + " "
        + prefixes[step + 5]
        + unit;
  }
}
