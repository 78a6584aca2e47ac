package bellwire.app.document;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.document.block.Span.Tone;
import bellwire.app.drawing.PairMatrixDrawing;
import bellwire.app.drawing.ResistanceDrawing;
import bellwire.app.drawing.RouteDrawing;
import bellwire.app.drawing.Run;
import bellwire.app.job.ConductorRow;
import bellwire.app.report.VoltageText;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Place;
import bellwire.app.sheet.SurveySheet.Standing;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** One survey of a cable: drawn, mapped, measured, and what is wrong with it. */
final class SurveyPart {
  /** Less probable explanations are in the JSON alone. */
  private static final double WORTH_A_LINE = 1e-3;

  private final Figures figures;
  private final Cable cable;
  private final Survey survey;
  private final Run run;
  private final Map<Integer, String> far = new LinkedHashMap<>();
  private final List<Block> out = new ArrayList<>();

  SurveyPart(ReportContents contents, Figures figures, Cable cable, Survey survey) {
    this.figures = figures;
    this.cable = cable;
    this.survey = survey;
    for (ConductorRow row : cable.conductors()) {
      if (!row.farColour().isEmpty()) {
        far.put(row.port(), row.farColour());
      }
    }
    double celsius = cable.row().celsius();
    run =
        new Run(
            cable.row().metres(),
            Gauge.parse(cable.row().gauge()).orElse(null),
            Double.isNaN(celsius) ? Run.UNKNOWN.celsius() : celsius,
            contents.feet());
  }

  List<Block> blocks() {
    if (survey.sheet().isEmpty()) {
      out.add(Block.Paragraph.of("Its result can't be read: " + survey.trouble()));
      return out;
    }
    SurveySheet sheet = survey.sheet().get();
    if (sheet.stopped()) {
      voltage();
      return out;
    }
    out.add(
        new Block.Figure(
            new RouteDrawing(sheet, far, run, null),
            "The run, near end on the left, to scale as far as places are known."));
    map(sheet);
    findings(sheet);
    resistances(sheet);
    pairs(sheet);
    attached(sheet);
    return out;
  }

  private void voltage() {
    List<String> lines;
    try {
      lines = VoltageText.lines(survey.row().json());
    } catch (IOException e) {
      lines = List.of("Foreign voltage ended the survey; its figures can't be read.");
    }
    out.add(new Block.Cautions("Foreign voltage: nothing was measured", lines));
  }

  private static int port(Conductor c) {
    return Integer.parseInt(c.port().substring(1)) - 1;
  }

  /** Which conductor is which. */
  private void map(SurveySheet sheet) {
    out.add(new Block.Heading(3, "Which conductor is which"));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Conductor c : sheet.conductors()) {
      ConductorRow noted =
          cable.conductors().stream().filter(r -> r.port() == port(c)).findFirst().orElse(null);
      String near = c.colour() != null ? c.colour() : noted == null ? "" : noted.nearColour();
      Place at = c.openAt();
      String reason = c.reason() + (at == null ? "" : ": open at " + figures.place(at));
      rows.add(
          List.of(
              List.of(Span.bold(c.port())),
              Span.list(near),
              Span.list(far.getOrDefault(port(c), "")),
              Span.list(farEnd(c)),
              List.of(standing(c.standing())),
              Span.list(
                  noted == null || noted.note().isEmpty()
                      ? reason
                      : reason + "; " + Span.own(noted.note()))));
    }
    out.add(
        new Block.Table(
            List.of("port", "near colour", "far colour", "far end", "verdict", "why"), rows));
  }

  private static String farEnd(Conductor c) {
    if (c.position() != 0) {
      return "position\u00a0" + c.position();
    }
    if (c.farPossible().isEmpty()) {
      return "not identified";
    }
    return "one of " + String.join(", ", c.farPossible().stream().map(String::valueOf).toList());
  }

  static Span standing(Standing standing) {
    return switch (standing) {
      case SOUND -> Span.toned("\u2713\u00a0sound", Tone.SOUND);
      case FAULTY -> Span.toned("\u2717\u00a0faulty", Tone.FAULTY);
      case UNDECIDED -> Span.toned("?\u00a0undecided", Tone.UNDECIDED);
    };
  }

  private void findings(SurveySheet sheet) {
    out.add(new Block.Heading(3, "Findings and what to do"));
    if (sheet.findings().isEmpty()) {
      out.add(Block.Paragraph.of("No fault was seen in what was measured."));
    } else {
      List<List<List<Span>>> rows = new ArrayList<>();
      for (Finding f : sheet.findings()) {
        rows.add(
            List.of(
                List.of(Span.bold(f.title() + ": "), Span.of(figures.sentence(f))),
                Span.list(f.remedy())));
      }
      out.add(new Block.Table(List.of("what was seen", "what to do"), rows));
    }
    explanations(sheet);
  }

  private void explanations(SurveySheet sheet) {
    boolean healthy =
        sheet.explanations().isEmpty() || sheet.explanations().get(0).faults().isEmpty();
    if (healthy) {
      return;
    }
    List<List<List<Span>>> rows = new ArrayList<>();
    for (SurveySheet.Explanation e : sheet.explanations()) {
      if (e.probability() < WORTH_A_LINE && !rows.isEmpty()) {
        continue;
      }
      List<String> faults = e.faults().stream().map(this::fault).toList();
      String words = faults.isEmpty() ? "no fault, chance alone" : String.join("; ", faults);
      rows.add(
          List.of(
              Span.list(percent(e.probability())),
              Span.list(e.explainsAll() ? words : words + "; the rest fits nothing known")));
    }
    out.add(new Block.Table(List.of("probability", "what would explain the readings"), rows));
  }

  private static String percent(double probability) {
    return Figures.unparted(
        probability > 0.999
            ? "over 99.9 %"
            : String.format(Locale.ROOT, "%.1f %%", 100 * probability));
  }

  private String fault(SurveySheet.Fault fault) {
    String words =
        switch (fault.kind()) {
          case "open" -> String.join(" or ", fault.ports()) + " open";
          case "joint" -> String.join(" or ", fault.ports()) + " with a bad joint";
          default -> String.join(" or ", fault.ports()) + " to " + String.join(" or ", fault.to());
        };
    Quantity ohms = fault.ohms();
    Quantity at = fault.at();
    return words
        + (ohms == null ? "" : ", " + Figures.ohms(ohms))
        + (at == null ? "" : ", at " + figures.place(new Place(at, null)));
  }

  private void resistances(SurveySheet sheet) {
    if (sheet.conductors().stream().allMatch(c -> c.ohms() == null)) {
      out.add(
          Block.Paragraph.small(
              "No conductor's own resistance could be told. Measured: "
                  + String.join(", ", sheet.phases())
                  + "."));
      return;
    }
    out.add(new Block.Heading(3, "Resistance of each conductor"));
    out.add(
        new Block.Figure(
            new ResistanceDrawing(sheet, run, null),
            "Resistance of each conductor, contacts taken off, with its expanded uncertainty"
                + " (k = 2)."));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Conductor c : sheet.conductors()) {
      Quantity ohms = c.ohms();
      rows.add(
          List.of(
              Span.list(c.name()),
              Span.list(ohms == null ? "not measured" : Figures.ohms(ohms)),
              List.of(standing(c.standing()))));
    }
    out.add(
        new Block.Table(
            List.of("conductor", "resistance \u00b1 U, k\u00a0=\u00a02", "verdict"), rows));
    List<Block.Fact> facts = new ArrayList<>();
    Quantity length = sheet.length();
    if (length != null) {
      facts.add(Block.Fact.of("length of the run, from its resistance", figures.length(length)));
    }
    if (sheet.gauge() != null) {
      facts.add(Block.Fact.of("gauge that fits the resistances", sheet.gauge()));
    }
    facts.add(Block.Fact.of("measured", String.join(", ", sheet.phases())));
    out.add(new Block.Facts(facts));
  }

  private void pairs(SurveySheet sheet) {
    out.add(new Block.Heading(3, "Between the conductors"));
    out.add(
        new Block.Figure(
            new PairMatrixDrawing(sheet, null),
            "Resistance between every two, on a logarithmic scale; hatched: more than can be"
                + " measured. M is bare metal. Read at about 2 V: no insulation-resistance"
                + " test."));
    List<List<List<Span>>> odd = new ArrayList<>();
    List<List<List<Span>>> sound = new ArrayList<>();
    for (Pair p : sheet.pairs()) {
      List<Span> between = Span.list(sheet.name(p.a()) + " \u2013 " + sheet.name(p.b()));
      List<Span> figure = Span.list(figure(p));
      if (p.standing() == Standing.SOUND) {
        sound.add(List.of(between, figure));
      } else {
        odd.add(List.of(between, figure, List.of(standing(p.standing())), Span.list(p.reason())));
      }
    }
    if (!odd.isEmpty()) {
      out.add(
          new Block.Table(
              List.of("between", "resistance \u00b1 U, k\u00a0=\u00a02", "verdict", "why"), odd));
    }
    if (!sound.isEmpty()) {
      out.add(
          new Block.Table(
              List.of("sound: between", "resistance", "sound: between ", "resistance "),
              twoAbreast(sound)));
    }
    out.add(
        Block.Paragraph.small(
            sheet.metalChecked()
                ? "Metal (M) was clipped and is among them."
                : "Not checked to ground: the clip was on no bare metal."));
  }

  private static List<List<List<Span>>> twoAbreast(List<List<List<Span>>> rows) {
    List<List<List<Span>>> wide = new ArrayList<>();
    int half = (rows.size() + 1) / 2;
    for (int i = 0; i < half; i++) {
      List<List<Span>> row = new ArrayList<>(rows.get(i));
      row.addAll(
          i + half < rows.size() ? rows.get(i + half) : List.of(Span.list(""), Span.list("")));
      wide.add(row);
    }
    return wide;
  }

  private static String figure(Pair p) {
    Quantity ohms = p.ohms();
    return ohms == null ? Figures.above(p.aboveOhms()) : Figures.ohms(ohms);
  }

  private void attached(SurveySheet sheet) {
    if (sheet.attached().isEmpty()) {
      return;
    }
    out.add(new Block.Heading(3, "What joins conductors while they are landed"));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (SurveySheet.Attached a : sheet.attached()) {
      List<String> what = new ArrayList<>();
      a.figures().entrySet().stream()
          .sorted(Map.Entry.comparingByKey())
          .forEach(
              e ->
                  what.add(
                      Figures.unparted(
                          String.format(Locale.ROOT, "%.3g %s", e.getValue(), e.getKey()))));
      rows.add(
          List.of(
              Span.list(sheet.name(a.a()) + " \u2013 " + sheet.name(a.b())),
              Span.list(a.kind()),
              Span.list(percent(a.probability())),
              Span.list(String.join(", ", what))));
    }
    out.add(new Block.Table(List.of("between", "kind", "probability", "figures"), rows));
  }
}
