package bellwire.app.vigil;

import static bellwire.app.vigil.VigilFigures.chance;
import static bellwire.app.vigil.VigilFigures.rate;
import static bellwire.app.vigil.VigilFigures.time;
import static bellwire.app.vigil.VigilFigures.two;

import bellwire.analysis.vigil.PoissonRate;
import bellwire.analysis.vigil.VigilComparison;
import bellwire.analysis.vigil.VigilComparison.Line;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.report.Paragraph;
import java.util.ArrayList;
import java.util.List;

/** Two vigils compared, for a terminal: is it gone? */
public final class ComparisonText {
  private final VigilComparison comparison;
  private final VigilProgram program;
  private final VigilWords words;

  private ComparisonText(VigilComparison comparison, StoredVigil before) {
    this.comparison = comparison;
    program = before.watch().program();
    words =
        new VigilWords(
            VigilText.namesOf(before),
            new VigilClock(before.row(), java.time.ZoneOffset.UTC),
            before.watch());
  }

  /** Lines of text. */
  public static List<String> lines(VigilComparison comparison, StoredVigil before) {
    return new ComparisonText(comparison, before).lines();
  }

  private List<String> lines() {
    List<String> out = new ArrayList<>();
    out.addAll(Paragraph.hanging("COMPARISON   ", verdict(comparison.whole()) + unsure()));
    sentences(comparison.whole()).forEach(each -> out.addAll(Paragraph.hanging("  ", each)));
    if (comparison.conductors().size() > 1) {
      for (Line line : comparison.conductors()) {
        String who = line.subject().map(words::who).orElse("");
        out.addAll(Paragraph.hanging("  - ", who + ": " + verdict(line)));
        sentences(line).forEach(each -> out.addAll(Paragraph.hanging("      ", each)));
      }
    }
    out.addAll(
        Paragraph.hanging(
            "  ",
            "That holds for what comes as often as it did, at any time alike. A fault that needs the"
                + " heat, the wind or a running fan shows only while there is some: watch under the"
                + " same conditions."));
    return out;
  }

  /** Those for whom the whole's verdict does not hold. */
  private String unsure() {
    List<String> who = new ArrayList<>();
    for (Line line : comparison.conductors()) {
      if (comparison.whole().fewer() && !line.fewer()) {
        who.add(line.subject().map(words::who).orElse(""));
      }
    }
    return who.isEmpty() || comparison.conductors().size() < 2
        ? ""
        : "; NOT SURE for " + String.join("; ", who);
  }

  /** In one line. */
  static String verdict(Line line) {
    if (line.before().events() == 0) {
      return line.after().events() == 0
          ? "nothing before and nothing after: there is nothing to compare"
          : "NEW: nothing before, " + count(line.after(), line) + " after";
    }
    if (line.more()) {
      return "WORSE than before";
    }
    if (!line.fewer()) {
      return "NOT SURE that anything has changed";
    }
    return line.after().events() == 0 ? "gone, as far as can be told" : "fewer, but NOT GONE";
  }

  private static String count(PoissonRate rate, Line line) {
    String one = line.bursts() ? "burst" : "event";
    return rate.events() == 0
        ? "no " + one
        : rate.events() + " " + one + (rate.events() == 1 ? "" : "s");
  }

  private List<String> sentences(Line line) {
    List<String> all = new ArrayList<>();
    double seconds = line.after().seconds();
    all.add(
        "before: "
            + count(line.before(), line)
            + " in "
            + time(line.before().seconds() * 1e6)
            + ", "
            + rate(line.before())
            + "; after: "
            + count(line.after(), line)
            + " in "
            + time(seconds * 1e6)
            + ", "
            + rate(line.after()));
    if (line.before().events() == 0) {
      return all;
    }
    String exact =
        count(line.after(), line)
            + " in "
            + time(seconds * 1e6)
            + ", were nothing repaired: chance ";
    all.add(
        exact
            + chance(line.chanceOfSoFew())
            + ", how little the earlier rate is known counted in"
            + (line.after().events() == 0
                ? "; at just the earlier rate " + chance(line.chanceOfNone())
                : ""));
    all.add(
        "the later rate is "
            + two(line.ratio().low())
            + " to "
            + two(line.ratio().high())
            + " times the earlier one, at 95 %");
    if (line.after().events() == 0 && !line.fewer()) {
      double more = line.secondsToBeSure() - seconds;
      all.add(
          "to be 95 % sure: "
              + time(line.secondsToBeSure() * 1e6)
              + " without any, "
              + time(more * 1e6)
              + " more"
              + (program == VigilProgram.CALLS ? " of the same use" : ""));
    }
    return all;
  }
}
