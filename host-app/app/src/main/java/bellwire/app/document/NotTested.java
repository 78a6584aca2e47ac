package bellwire.app.document;

import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Landing;
import bellwire.app.document.ReportContents.Rehearsal;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.document.block.Block.Statement;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.job.Act;
import bellwire.app.job.Checklist;
import bellwire.app.job.Stage;
import bellwire.app.job.Tick;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalOutcome.Coverage;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.survey.BoardSaid;
import bellwire.app.vigil.StoredVigil;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What nobody looked at, with the reason: left out of no report. */
final class NotTested {
  private final ReportContents contents;
  private final List<Statement> out = new ArrayList<>();

  NotTested(ReportContents contents) {
    this.contents = contents;
  }

  private void add(String lead, String words) {
    out.add(new Statement(Mark.NOT_TESTED, List.of(Span.bold(lead + ": "), Span.of(words))));
  }

  List<Statement> lines() {
    simulated();
    dead();
    cables();
    landings();
    rehearsals();
    vigils();
    checklist();
    contents.troubles().forEach(words -> add("This report", words));
    return out;
  }

  /** A simulated bench's figures must not be taken for a cable's. */
  private void simulated() {
    List<String> cable = new ArrayList<>();
    if (new Instruments(contents).surveys().stream().anyMatch(BoardSaid::simulated)) {
      cable.add("a survey");
    }
    List<StoredVigil> vigils =
        contents.vigils().stream()
            .flatMap(v -> v.stored().stream())
            .filter(v -> BoardSaid.of(v.watched().board()).simulated())
            .toList();
    if (vigils.stream().anyMatch(v -> v.watch().program() != VigilProgram.CALLS)) {
      cable.add("a vigil");
    }
    simulated("THE REAL CABLE", cable, "its figures are no cable's");
    List<String> control = new ArrayList<>();
    if (contents.rehearsals().stream()
        .flatMap(r -> r.outcome().stream())
        .anyMatch(o -> o.board().simulated())) {
      control.add("a rehearsal");
    }
    if (vigils.stream().anyMatch(v -> v.watch().program() == VigilProgram.CALLS)) {
      control.add("a vigil of the calls");
    }
    simulated("THE REAL CONTROL", control, "what it shows is no control's");
  }

  private void simulated(String lead, List<String> what, String so) {
    if (!what.isEmpty()) {
      add(lead, String.join(" and ", what) + " in this job: made on a simulated bench, " + so);
    }
  }

  private void dead() {
    if (contents.acts().stream()
        .noneMatch(a -> !a.withdrawn() && a.kind() == Act.Kind.PROVED_DEAD)) {
      add("Proved dead", "nobody recorded a meter's reading");
    }
  }

  private void cables() {
    if (contents.cables().isEmpty()) {
      add("Cable", "none was recorded, so none was measured");
    }
    for (Cable cable : contents.cables()) {
      String name = Summary.cable(cable);
      Optional<SurveySheet> found = cable.last(Stage.AS_FOUND).flatMap(Survey::sheet);
      Optional<SurveySheet> left = cable.last(Stage.AS_LEFT).flatMap(Survey::sheet);
      if (found.isEmpty() && left.isEmpty()) {
        add(name, "not measured");
      } else if (left.isEmpty()) {
        add(name, "not measured again after the work");
      }
      left.or(() -> found).ifPresent(sheet -> sheet(name, sheet));
      for (Survey survey : cable.surveys()) {
        if (survey.sheet().isEmpty()) {
          add(name, "the result of a survey can't be read: " + survey.trouble());
        }
      }
    }
  }

  private void sheet(String name, SurveySheet sheet) {
    if (sheet.stopped()) {
      add(name, "foreign voltage ended the survey");
      return;
    }
    if (!sheet.metalChecked()) {
      add(name, "not checked to ground: the clip was on no bare metal");
    }
    long open =
        sheet.conductors().stream()
            .filter(c -> c.standing() == SurveySheet.Standing.UNDECIDED)
            .count();
    if (open > 0) {
      add(name, open + (open == 1 ? " conductor" : " conductors") + " left undecided");
    }
    add(
        name,
        "insulation at a higher voltage: the leakage was read at about 2 V, and is no"
            + " insulation-resistance test");
  }

  private void landings() {
    if (contents.landings().stream().allMatch(l -> l.planned().isEmpty())) {
      add("Landing", "no plan was checked by computation");
    }
    for (Landing landing : contents.landings()) {
      if (!landing.trouble().isEmpty()) {
        add("Landing", "can't be read or checked: " + landing.trouble());
      }
    }
  }

  private void rehearsals() {
    if (contents.rehearsals().isEmpty()) {
      add("Control", "its calls and rests were not rehearsed");
    }
    for (Rehearsal rehearsal : contents.rehearsals()) {
      if (rehearsal.outcome().isEmpty()) {
        add("Rehearsal", "can't be judged again: " + rehearsal.trouble());
      }
      rehearsal.outcome().ifPresent(o -> functions(o, rehearsal.row().live()));
    }
  }

  private void functions(RehearsalOutcome outcome, boolean live) {
    for (bellwire.app.rehearsal.Rehearsal.Function function : outcome.rehearsal().functions()) {
      if (outcome.coverage(function) == Coverage.NOT_COVERED) {
        String reason = RehearsalPart.reason(outcome, function);
        add(
            "Control",
            function.name() + " not rehearsed" + (reason.isEmpty() ? "" : ": " + reason));
      }
    }
    if (!live) {
      add("Equipment", "the control was rehearsed by itself: what the equipment does is not shown");
    }
  }

  private void vigils() {
    if (contents.vigils().isEmpty()) {
      add("Intermittent faults", "no vigil was kept: what comes and goes may not have shown");
    }
    for (Vigil vigil : contents.vigils()) {
      if (vigil.stored().isEmpty()) {
        add("Vigil", "can't be told: " + vigil.trouble());
      }
    }
  }

  private void checklist() {
    Map<String, Tick> ticks =
        contents.ticks().stream()
            .collect(Collectors.toMap(Tick::item, Function.identity(), (a, b) -> b));
    List<String> open = new ArrayList<>();
    for (Checklist.Item item : Checklist.items()) {
      Tick tick = ticks.get(item.key());
      if (tick == null || tick.state() == Tick.State.OPEN) {
        open.add(item.words());
      } else if (tick.state() == Tick.State.NOT_DONE) {
        add("Not done", item.words() + (tick.note().isEmpty() ? "" : ": " + Span.own(tick.note())));
      }
    }
    if (!open.isEmpty()) {
      add("Checklist, left open", String.join("; ", open));
    }
  }
}
