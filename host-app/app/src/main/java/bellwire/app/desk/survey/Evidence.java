package bellwire.app.desk.survey;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.desk.Units;
import bellwire.app.report.Share;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Explanation;
import bellwire.app.sheet.SurveySheet.Fault;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Place;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What was measured of a conductor, a pair or a finding, in words and numbers. */
final class Evidence {
  /** Less likely ones say nothing that a person would act on. */
  private static final double WORTH_A_LINE = 0.001;

  private static final String CONDUCTOR = "conductor:";
  private static final String PAIR = "pair:";
  private static final String FINDING = "finding:";

  /** Above this the odds are as good as certain (docs/survey-json.md). */
  private static final double CERTAIN = 1e6;

  private final SurveySheet sheet;
  private final Units units;

  Evidence(SurveySheet sheet, Units units) {
    this.sheet = sheet;
    this.units = units;
  }

  /**
   * @param key of a drawing's spot; empty, or one that is not there, gives the whole in short
   */
  String of(String key) {
    if (key.startsWith(CONDUCTOR)) {
      Conductor c = sheet.conductor(key.substring(CONDUCTOR.length()));
      return c == null ? whole() : conductor(c);
    }
    if (key.startsWith(PAIR)) {
      String[] ports = key.substring(PAIR.length()).split("-");
      Pair p = ports.length == 2 ? sheet.pair(ports[0], ports[1]) : null;
      return p == null ? whole() : pair(p);
    }
    if (key.matches(FINDING + "\\d{1,4}")) {
      int index = Integer.parseInt(key.substring(FINDING.length()));
      return index < sheet.findings().size() ? finding(sheet.findings().get(index)) : whole();
    }
    return whole();
  }

  private String whole() {
    StringBuilder out = new StringBuilder();
    long sound = sheet.conductors().stream().filter(c -> c.standing() == Standing.SOUND).count();
    out.append(sheet.conductors().size() + " conductors, " + sound + " of them sound.\n");
    if (sheet.length() != null) {
      out.append("Length of the run: " + length(sheet.length()) + ".\n");
    }
    if (sheet.gauge() != null) {
      out.append("Gauge that fits: " + sheet.gauge() + ".\n");
    }
    out.append(
        sheet.metalChecked()
            ? "Bare metal was clipped: leakage to it was measured.\n"
            : "\u25B2 Not checked to ground: the metal clip was not on.\n");
    out.append("\nChoose a conductor or a pair: what was measured of it stands here.");
    return out.toString();
  }

  private String conductor(Conductor c) {
    StringBuilder out = new StringBuilder(c.name() + ": " + mark(c.standing()) + "\n");
    out.append(sentence(c.reason())).append("\n");
    out.append("Resistance: " + ohms(c.ohms()) + "\n");
    if (c.position() > 0) {
      out.append("Far end: position " + c.position() + odds(c) + "\n");
    } else if (!c.farPossible().isEmpty()) {
      out.append("Far end: one of " + c.farPossible() + "\n");
    } else {
      out.append("Far end: not identified\n");
    }
    if (c.openAt() != null) {
      out.append("Broken " + place(c.openAt()) + "\n");
    }
    sheet.findings(c.port()).forEach(f -> out.append("\n" + finding(f) + "\n"));
    explanations(out, c.port(), null);
    return out.toString().stripTrailing();
  }

  private static String odds(Conductor c) {
    return c.odds() >= CERTAIN
        ? ", certain by the plug"
        : c.odds() > 1 ? String.format(Locale.ROOT, ", odds %.0f to 1", c.odds()) : "";
  }

  private String pair(Pair p) {
    StringBuilder out =
        new StringBuilder(
            sheet.name(p.a()) + " and " + sheet.name(p.b()) + ": " + mark(p.standing()) + "\n");
    out.append(sentence(p.reason())).append("\n");
    out.append(
        p.ohms() != null
            ? "Between them: " + ohms(p.ohms()) + "\n"
            : "Between them: nothing detected; certainly more than "
                + scaled(p.aboveOhms())
                + "\n");
    sheet.attached().stream()
        .filter(a -> List.of(a.a(), a.b()).containsAll(List.of(p.a(), p.b())))
        .forEach(
            a ->
                out.append(
                    String.format(
                        Locale.ROOT,
                        "Joined by: %s, probability %.0f %%\n",
                        a.kind(),
                        a.probability() * 100)));
    sheet.findings(p.a()).stream()
        .filter(f -> f.ports().contains(p.b()))
        .forEach(f -> out.append("\n" + finding(f) + "\n"));
    explanations(out, p.a(), p.b());
    return out.toString().stripTrailing();
  }

  String finding(Finding f) {
    String where = f.at() == null ? "" : "\nWhere: " + place(f.at());
    return "\u25B2 " + f.title() + ": " + f.words() + where + "\nWhat to do: " + f.remedy();
  }

  private void explanations(StringBuilder out, String port, @Nullable String other) {
    for (Explanation e : sheet.explanations()) {
      List<Fault> about =
          e.faults().stream()
              .filter(f -> names(f, port) && (other == null || names(f, other)))
              .toList();
      if (!about.isEmpty() && e.probability() >= WORTH_A_LINE) {
        out.append("\nExplained with " + Share.words(e.probability()) + ": ")
            .append(about.stream().map(this::fault).collect(Collectors.joining("; ")))
            .append(".");
      }
    }
  }

  private static boolean names(Fault f, String port) {
    return f.ports().contains(port) || f.to().contains(port);
  }

  /** All explanations, the likeliest first. */
  String explained() {
    StringBuilder out = new StringBuilder();
    for (Explanation e : sheet.explanations()) {
      String faults =
          e.faults().isEmpty()
              ? "no fault, chance alone"
              : e.faults().stream().map(this::fault).collect(Collectors.joining("; "));
      out.append(Share.words(e.probability()) + "  " + faults)
          .append(e.explainsAll() ? ".\n" : "; the rest of the readings fits nothing.\n");
    }
    return out.length() == 0 ? "Nothing needed explaining." : out.toString().stripTrailing();
  }

  private String fault(Fault f) {
    String who = f.ports().stream().map(sheet::name).collect(Collectors.joining(" or "));
    String at =
        f.at() == null
            ? ""
            : String.format(Locale.ROOT, " at %.0f %% of the run", f.at().value() * 100);
    String to = f.to().stream().map(sheet::name).collect(Collectors.joining(" or "));
    String ohms = f.ohms() == null ? "" : ", " + ohms(f.ohms());
    return switch (f.kind()) {
      case "open" -> who + " broken" + at;
      case "joint" -> "a poor joint in " + who + at + ohms;
      case "bridge" -> who + " on " + (to.isEmpty() ? "another" : to) + at + ohms;
      default -> f.kind() + " " + who + at + ohms;
    };
  }

  private String place(Place at) {
    String share =
        String.format(
            Locale.ROOT,
            "at %.0f %% of the run (\u00B1 %.0f, k = 2)",
            at.fraction().value() * 100,
            at.fraction().u() * 200);
    String metres = at.metres() == null ? "" : ", " + length(at.metres());
    return share + metres + (at.decided() ? "" : "; too unsure to go there");
  }

  /** With its expanded uncertainty. */
  private String length(Quantity metres) {
    return units.length(metres.value()) + " \u00B1 " + units.length(2 * metres.u()) + " (k = 2)";
  }

  private static String ohms(@Nullable Quantity q) {
    if (q == null) {
      return "not measured";
    }
    double unit = q.value() >= 1e9 ? 1e9 : q.value() >= 1e6 ? 1e6 : q.value() >= 1e3 ? 1e3 : 1;
    String prefix = unit >= 1e9 ? "G" : unit >= 1e6 ? "M" : unit >= 1e3 ? "k" : "";
    return new Quantity(q.value() / unit, 2 * q.u() / unit, prefix + q.unit()) + " (k = 2)";
  }

  static String scaled(double ohms) {
    if (ohms >= 1e9) {
      return String.format(Locale.ROOT, "%.3g Gohm", ohms * 1e-9);
    }
    if (ohms >= 1e6) {
      return String.format(Locale.ROOT, "%.3g Mohm", ohms * 1e-6);
    }
    return ohms >= 1e3
        ? String.format(Locale.ROOT, "%.3g kohm", ohms * 1e-3)
        : String.format(Locale.ROOT, "%.3g ohm", ohms);
  }

  static String mark(Standing standing) {
    return switch (standing) {
      case SOUND -> "\u25CB sound";
      case FAULTY -> "\u25B2 FAULTY";
      case UNDECIDED -> "\u25C7 undecided";
    };
  }

  private static String sentence(String words) {
    if (words.isEmpty()) {
      return "";
    }
    String text = Character.toUpperCase(words.charAt(0)) + words.substring(1);
    return text.endsWith(".") ? text : text + ".";
  }
}
