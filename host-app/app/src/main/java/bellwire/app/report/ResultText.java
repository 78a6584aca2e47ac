package bellwire.app.report;

import bellwire.analysis.survey.AlongRun;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.survey.TieRun;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A survey's result for a terminal: the conductors drawn from end to end, the pairs, the findings
 * with their remedies.
 */
public final class ResultText {
  private static final int LIST_PAIRS = 12;

  private final Map<Integer, String> colours;
  private final boolean feet;

  /**
   * @param colours near-end colour by port, where the technician gave it
   * @param feet lengths in feet instead of metres
   */
  public ResultText(Map<Integer, String> colours, boolean feet) {
    this.colours = colours;
    this.feet = feet;
  }

  /** Lines of text, without colour codes. */
  public List<String> lines(SurveyResult result) {
    List<String> out = new ArrayList<>();
    out.add("CONDUCTORS   near end " + " ".repeat(21) + "far end");
    for (ConductorResult c : result.conductors()) {
      out.add("  " + drawing(c, result));
      out.addAll(Paragraph.hanging("       " + mark(c.standing()) + " ", reason(c)));
    }
    Quantity length = result.length();
    if (length != null) {
      out.add("  run: about " + length(length));
    }
    if (result.gauge() != null) {
      out.add("  gauge: " + result.gauge());
    }
    TieRun ties = result.ties();
    if (ties != null) {
      out.add("");
      out.addAll(TiesText.lines(ties));
    }
    out.add("");
    pairs(result, out);
    out.add("");
    findings(result, out);
    remedies(result, out);
    out.add("");
    out.add("RESULT");
    out.add("  conductors: " + count(result.conductors().stream().map(c -> c.standing())));
    out.add("  pairs:      " + count(result.pairs().stream().map(p -> p.standing())));
    if (!result.metalChecked()) {
      out.add("  not checked to ground");
    }
    return out;
  }

  /** The mark says that it is sound already. */
  private String reason(ConductorResult c) {
    String reason =
        c.standing() == Standing.SOUND ? c.reason().replaceFirst("^sound, ", "") : c.reason();
    AlongRun at = c.openAt();
    if (at == null) {
      return reason;
    }
    String hint = at.hint().isEmpty() ? "" : "; " + at.hint();
    return reason + ": open " + place(at) + hint;
  }

  private void findings(SurveyResult result, List<String> out) {
    String none = result.allSound() ? "none" : "no fault seen in what was measured";
    out.add(result.findings().isEmpty() ? "FINDINGS   " + none : "FINDINGS");
    for (Finding finding : result.findings()) {
      out.addAll(Paragraph.hanging("  ! ", finding.kind().title() + ": " + words(finding)));
    }
    out.addAll(ExplanationText.lines(result.explanations()));
  }

  private String words(Finding finding) {
    AlongRun at = finding.at();
    return at == null ? finding.words() : finding.words() + ", " + place(at);
  }

  private String place(AlongRun at) {
    Quantity metres = at.metres();
    return metres == null || !at.decided()
        ? at.words()
        : at.words() + ", " + length(metres) + " from the near end";
  }

  private static String count(Stream<Standing> standings) {
    Map<Standing, Long> by =
        standings.collect(Collectors.groupingBy(standing -> standing, Collectors.counting()));
    return by.getOrDefault(Standing.SOUND, 0L)
        + " sound, "
        + by.getOrDefault(Standing.FAULTY, 0L)
        + " faulty, "
        + by.getOrDefault(Standing.UNDECIDED, 0L)
        + " undecided";
  }

  private String drawing(ConductorResult c, SurveyResult result) {
    String colour = colours.getOrDefault(c.port(), "");
    String near = String.format(Locale.ROOT, "%-3s %-8s", Ports.name(c.port()), colour);
    boolean untied = c.standing() == Standing.FAULTY && untied(c, result);
    String line = RunDrawing.of(c.port(), result.findings(), untied, c.openAt());
    TieRun ties = result.ties();
    String far =
        ties != null
            ? TiesText.far(ties, c.port())
            : c.position() == 0 ? "?" : "position " + c.position();
    Quantity ohms = c.ohms();
    return near
        + "o"
        + line
        + "o "
        + String.format(Locale.ROOT, "%-12s", far)
        + (ohms == null ? "" : ohms);
  }

  private static boolean untied(ConductorResult c, SurveyResult result) {
    TieRun ties = result.ties();
    return ties != null && ties.reading().maybeBroken().contains(c.port());
  }

  private void pairs(SurveyResult result, List<String> out) {
    long sound = result.pairs().stream().filter(p -> p.standing() == Standing.SOUND).count();
    out.add(
        "PAIRS   "
            + sound
            + " of "
            + result.pairs().size()
            + " sound"
            + (result.metalChecked() ? ", metal (M) among them" : "; not checked to ground"));
    double least =
        result.pairs().stream()
            .filter(p -> p.standing() == Standing.SOUND && p.ohms() == null)
            .mapToDouble(PairResult::aboveOhms)
            .min()
            .orElse(Double.NaN);
    if (!Double.isNaN(least)) {
      out.add("  nothing found between the sound ones: each pair is above " + words(least));
    }
    int listed = 0;
    for (PairResult pair : result.pairs()) {
      if (pair.standing() != Standing.SOUND || pair.ohms() != null) {
        if (listed++ < LIST_PAIRS) {
          Quantity ohms = pair.ohms();
          out.add(
              "  "
                  + Ports.name(pair.a())
                  + " - "
                  + Ports.name(pair.b())
                  + "  "
                  + mark(pair.standing())
                  + " "
                  + pair.reason()
                  + (ohms == null ? "" : " (" + ohms + ")"));
        }
      }
    }
    if (listed > LIST_PAIRS) {
      out.add("  and " + (listed - LIST_PAIRS) + " more pairs: --json FILE has them all");
    }
  }

  private static void remedies(SurveyResult result, List<String> out) {
    List<String> lines = Remedies.lines(result.findings().stream().map(Finding::kind));
    if (!lines.isEmpty()) {
      out.add("");
      out.addAll(lines);
    }
  }

  private String length(Quantity metres) {
    return feet
        ? new Quantity(metres.value() / 0.3048, metres.u() / 0.3048, "ft").toString()
        : metres.toString();
  }

  private static String mark(Standing standing) {
    return switch (standing) {
      case SOUND -> "sound    ";
      case FAULTY -> "FAULTY   ";
      case UNDECIDED -> "undecided";
    };
  }

  static String words(double ohms) {
    String[] units = {"ohm", "kohm", "Mohm", "Gohm"};
    int k = 0;
    double x = ohms;
    while (x >= 1000 && k < units.length - 1) {
      x /= 1000;
      k++;
    }
    return String.format(
        Locale.ROOT, x >= 100 ? "%.0f %s" : "%.1f %s", Math.floor(x * 10) / 10, units[k]);
  }
}
