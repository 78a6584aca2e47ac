package bellwire.app.document;

import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Checked;
import bellwire.app.document.ReportContents.Landing;
import bellwire.app.document.ReportContents.Rehearsal;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.document.block.Block.Statement;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.job.Act;
import bellwire.app.job.Checklist;
import bellwire.app.job.Fact;
import bellwire.app.job.Stage;
import bellwire.app.job.Tick;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Finding;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** What the job comes to, each line with how it is known. */
final class Summary {
  private final ReportContents contents;
  private final Figures figures;

  Summary(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  private static Statement said(Mark mark, String lead, String words) {
    return new Statement(mark, List.of(Span.bold(lead + ": "), Span.of(words)));
  }

  static String cable(Cable cable) {
    return cable.row().name().isEmpty() ? "Cable" : "Cable " + Span.own(cable.row().name());
  }

  /** Of what is told elsewhere, or is no fault. */
  static boolean isFault(Finding finding) {
    return !Set.of("metal-unchecked", "two-conductors").contains(finding.kind());
  }

  List<Statement> found() {
    List<Statement> out = new ArrayList<>();
    for (Cable cable : contents.cables()) {
      cable
          .last(Stage.AS_FOUND)
          .flatMap(Survey::sheet)
          .ifPresent(sheet -> found(out, cable, sheet));
    }
    for (Cable cable : contents.cables()) {
      cable
          .last(Stage.AS_LEFT)
          .flatMap(Survey::sheet)
          .ifPresent(sheet -> stillFaulty(out, cable, sheet));
    }
    for (Landing landing : contents.landings()) {
      landing
          .found()
          .ifPresent(
              checked ->
                  checked
                      .faults()
                      .forEach(
                          f ->
                              out.add(
                                  said(
                                      Mark.WITNESSED,
                                      "Landing as found",
                                      f.kind().title() + ": " + f.words()))));
    }
    for (Landing landing : contents.landings()) {
      landing.planned().ifPresent(checked -> stillWrong(out, checked));
    }
    for (Rehearsal rehearsal : contents.rehearsals()) {
      rehearsal
          .outcome()
          .ifPresent(
              o -> o.findings().forEach(f -> out.add(said(Mark.MEASURED, "Control", f.says()))));
    }
    for (Vigil vigil : contents.vigils()) {
      vigil
          .stored()
          .filter(s -> s.found())
          .ifPresent(
              s ->
                  VigilPart.findings(s, contents.zone())
                      .forEach(line -> out.add(said(Mark.MEASURED, "Vigil", line))));
    }
    return out;
  }

  /** What the survey after the work found, before what the one before it did. */
  private static void stillFaulty(List<Statement> out, Cable cable, SurveySheet sheet) {
    String lead = cable(cable) + ", AFTER THE WORK";
    if (sheet.stopped()) {
      out.add(0, said(Mark.MEASURED, lead, "foreign voltage: it was not measured any further"));
      return;
    }
    List<String> faults =
        sheet.findings().stream().filter(Summary::isFault).map(Summary::titled).toList();
    if (!faults.isEmpty()) {
      out.add(0, said(Mark.MEASURED, lead, String.join("; ", faults)));
    }
  }

  private static String titled(Finding f) {
    return f.title() + (f.ports().isEmpty() ? "" : " (" + String.join(", ", f.ports()) + ")");
  }

  /** What is wrong with the landing as it is now comes first: it must not be overlooked. */
  private static void stillWrong(List<Statement> out, Checked checked) {
    Map<String, Integer> titles = new LinkedHashMap<>();
    checked.faults().forEach(f -> titles.merge(f.kind().title(), 1, Integer::sum));
    if (!titles.isEmpty()) {
      String words =
          titles.entrySet().stream()
              .map(e -> e.getKey() + (e.getValue() > 1 ? ", " + e.getValue() + " times" : ""))
              .collect(Collectors.joining("; "));
      out.add(
          0,
          said(
              Mark.ASSUMED,
              "LANDING AS WRITTEN DOWN NOW",
              "computed, not ready for power: " + words));
    }
  }

  private void found(List<Statement> out, Cable cable, SurveySheet sheet) {
    if (sheet.stopped()) {
      out.add(
          said(Mark.MEASURED, cable(cable), "foreign voltage: it was not measured any further"));
      return;
    }
    List<Finding> faults = sheet.findings().stream().filter(Summary::isFault).toList();
    for (Finding f : faults) {
      out.add(said(Mark.MEASURED, cable(cable), f.title() + ": " + figures.sentence(f)));
    }
    if (faults.isEmpty()) {
      out.add(
          said(
              Mark.MEASURED,
              cable(cable),
              sheet.conductors().size() + " conductors measured, no fault seen"));
    }
  }

  List<Statement> done() {
    List<Statement> out = new ArrayList<>();
    String before = contents.fact(Fact.OLD_CONTROL);
    String after = contents.fact(Fact.NEW_CONTROL);
    if (!after.isEmpty()) {
      out.add(
          said(
              doneBy("mounting"),
              "Control",
              (before.isEmpty() ? "" : "found: " + Span.own(before) + "; ")
                  + (isDone("mounting") ? "fitted: " : "to be fitted, not ticked as mounted: ")
                  + Span.own(after)));
    }
    contents.landings().stream()
        .reduce((a, b) -> b)
        .flatMap(Landing::draft)
        .ifPresent(draft -> moved(out, draft));
    for (Cable cable : contents.cables()) {
      gone(out, cable);
    }
    for (Act act : contents.acts()) {
      if (!act.withdrawn() && act.kind() == Act.Kind.FUSE_REPLACED) {
        out.add(said(Mark.WITNESSED, "Fuse", Span.own(act.what()) + reading(act)));
      }
    }
    for (Tick.Basis basis : Tick.Basis.values()) {
      String items =
          contents.ticks().stream()
              .filter(t -> t.state() == Tick.State.DONE && t.basis() == basis)
              .map(Summary::item)
              .collect(Collectors.joining("; "));
      if (!items.isEmpty()) {
        out.add(said(mark(basis), "Checklist", items));
      }
    }
    return out;
  }

  private static String reading(Act act) {
    return act.reading().isEmpty() ? "" : " (" + Span.own(act.reading()) + ")";
  }

  static Mark mark(Tick.Basis basis) {
    return switch (basis) {
      case MEASURED -> Mark.MEASURED;
      case WITNESSED -> Mark.WITNESSED;
      case ASSUMED -> Mark.ASSUMED;
    };
  }

  static String item(Tick tick) {
    return Checklist.item(tick.item()).map(Checklist.Item::words).orElse(tick.item());
  }

  private boolean isDone(String item) {
    return contents.ticks().stream()
        .anyMatch(t -> t.item().equals(item) && t.state() == Tick.State.DONE);
  }

  /** How it is known that an item of the checklist was done; assumed where nobody ticked it. */
  private Mark doneBy(String item) {
    return contents.ticks().stream()
        .filter(t -> t.item().equals(item) && t.state() == Tick.State.DONE)
        .findFirst()
        .map(t -> mark(t.basis()))
        .orElse(Mark.ASSUMED);
  }

  private void moved(List<Statement> out, LandingDraft draft) {
    List<Landed> planned = draft.plan(Which.AS_PLANNED).landed();
    if (planned.stream().allMatch(l -> l.near() == null && l.far() == null)) {
      return;
    }
    List<String> changes = new ArrayList<>();
    for (Landed to : planned) {
      draft.plan(Which.AS_FOUND).landed().stream()
          .filter(from -> from.conductor().equals(to.conductor()) && !from.equals(to))
          .forEach(
              from ->
                  changes.add(Span.own(to.conductor()) + " " + ends(from) + " \u2192 " + ends(to)));
    }
    // A plan says what is to be landed; the tugs at both ends say that somebody had it in hand.
    boolean tugged = isDone("tug-near") && isDone("tug-far");
    String words =
        changes.isEmpty()
            ? "every conductor under the terminals where it was found"
            : "changed: " + String.join("; ", changes);
    out.add(
        said(
            tugged ? Mark.WITNESSED : Mark.ASSUMED,
            "Landing",
            tugged ? words : "as written down, not ticked as tugged at both ends: " + words));
  }

  static String ends(Landed landed) {
    return Objects.requireNonNullElse(landed.near(), "free")
        + "\u2013"
        + Objects.requireNonNullElse(landed.far(), "free");
  }

  /** Findings that the later survey has no more, though it would have seen them. */
  private static void gone(List<Statement> out, Cable cable) {
    Optional<SurveySheet> before = cable.last(Stage.AS_FOUND).flatMap(Survey::sheet);
    Optional<SurveySheet> after = cable.last(Stage.AS_LEFT).flatMap(Survey::sheet);
    if (before.isEmpty() || after.isEmpty() || !seesAsMuch(after.get(), before.get())) {
      return;
    }
    List<String> gone = new ArrayList<>();
    for (Finding f : before.get().findings()) {
      boolean still =
          after.get().findings().stream()
              .anyMatch(l -> l.kind().equals(f.kind()) && l.ports().equals(f.ports()));
      if (isFault(f) && !still && isDecided(after.get(), f.ports())) {
        gone.add(titled(f));
      }
    }
    if (!gone.isEmpty()) {
      out.add(said(Mark.MEASURED, cable(cable), "no longer found: " + String.join("; ", gone)));
    }
  }

  private static boolean seesAsMuch(SurveySheet after, SurveySheet before) {
    return !after.stopped()
        && after.inPlace() == before.inPlace()
        && after.phases().containsAll(before.phases())
        && (after.metalChecked() || !before.metalChecked());
  }

  /** Whether nothing that the ports are part of was left undecided. */
  private static boolean isDecided(SurveySheet sheet, List<String> ports) {
    return sheet.conductors().stream()
            .filter(c -> ports.contains(c.port()))
            .noneMatch(c -> c.standing() == SurveySheet.Standing.UNDECIDED)
        && sheet.pairs().stream()
            .filter(p -> ports.contains(p.a()) && ports.contains(p.b()))
            .noneMatch(p -> p.standing() == SurveySheet.Standing.UNDECIDED);
  }

  List<Statement> works() {
    List<Statement> out = new ArrayList<>();
    for (Cable cable : contents.cables()) {
      Optional<SurveySheet> left = cable.last(Stage.AS_LEFT).flatMap(Survey::sheet);
      left.or(() -> cable.last(Stage.AS_FOUND).flatMap(Survey::sheet))
          .filter(sheet -> sound(sheet) > 0)
          .ifPresent(sheet -> out.add(sound(cable, sheet, left.isPresent())));
    }
    for (Landing landing : contents.landings()) {
      landing.planned().filter(c -> c.faults().isEmpty()).ifPresent(c -> out.add(landed(c)));
    }
    for (Rehearsal rehearsal : contents.rehearsals()) {
      rehearsal.outcome().flatMap(RehearsalPart::seen).ifPresent(out::add);
    }
    for (Vigil vigil : contents.vigils()) {
      vigil
          .stored()
          .filter(s -> !s.found() && s.watch().exposure().micros() > 0)
          .filter(s -> s.events().isPresent() || s.trend().isPresent())
          .ifPresent(
              s ->
                  VigilPart.first(s, contents.zone())
                      .ifPresent(line -> out.add(said(Mark.MEASURED, "Vigil", line))));
    }
    return out;
  }

  private static long sound(SurveySheet sheet) {
    return sheet.conductors().stream()
        .filter(c -> c.standing() == SurveySheet.Standing.SOUND)
        .count();
  }

  private static Statement sound(Cable cable, SurveySheet sheet, boolean left) {
    return said(
        Mark.MEASURED,
        cable(cable),
        sound(sheet)
            + " of "
            + sheet.conductors().size()
            + " conductors sound, "
            + (left ? "measured after the work" : "as it was found"));
  }

  private static Statement landed(Checked checked) {
    return said(
        Mark.ASSUMED,
        "Landing",
        "computed, not seen: every call does what it should, for "
            + checked.installation().control().title()
            + " on "
            + checked.installation().equipment().title()
            + " as they are described, landed as written down");
  }

  List<Statement> notTested() {
    return new NotTested(contents).lines();
  }
}
