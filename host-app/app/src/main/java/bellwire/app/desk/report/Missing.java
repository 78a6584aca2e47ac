package bellwire.app.desk.report;

import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Checklist;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.sheet.SurveySheet;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** What a reader of the report will miss, in words, with the page where it can be made good. */
final class Missing {
  /**
   * One thing.
   *
   * @param page of the desk, by its key
   */
  record Gap(String words, String page) {}

  private final JobReader reader;
  private final JobRecords records;
  private final List<Gap> gaps = new ArrayList<>();

  private Missing(JobReader reader) {
    this.reader = reader;
    records = reader.records();
  }

  /** In the order of the visit; empty where nothing is missing. */
  static List<Gap> of(JobReader reader) throws JobFileException {
    Missing missing = new Missing(reader);
    missing.told();
    missing.acts();
    missing.surveys();
    missing.tried();
    missing.finish();
    return missing.gaps;
  }

  private void told() throws JobFileException {
    if (records.fact(Fact.CUSTOMER).isBlank()) {
      gap("No customer is named", "visit");
    }
    if (records.fact(Fact.PLACE).isBlank()) {
      gap("No place is named", "visit");
    }
    if (records.fact(Fact.TECHNICIAN).isBlank()) {
      gap("Nobody is named who did the work", "visit");
    }
  }

  private void acts() throws JobFileException {
    List<Act> acts = records.acts().stream().filter(a -> !a.withdrawn()).toList();
    if (acts.stream().noneMatch(a -> a.kind() == Act.Kind.SWITCHED_OFF)) {
      gap("Nothing says which supplies were switched off", "safe");
    }
    if (acts.stream().noneMatch(a -> a.kind() == Act.Kind.PROVED_DEAD)) {
      gap("Nothing says that the cable was proved dead", "safe");
    }
    boolean off = acts.stream().anyMatch(a -> a.kind() == Act.Kind.SWITCHED_OFF);
    if (off && acts.stream().noneMatch(a -> a.kind() == Act.Kind.SWITCHED_ON)) {
      gap("Nothing says that what was switched off is on again", "safe");
    }
  }

  private void surveys() throws JobFileException {
    List<CableRow> cables = records.cables();
    if (cables.isEmpty()) {
      gap("No cable was surveyed", "survey");
    }
    List<SurveyRow> surveys = records.surveyResults();
    for (CableRow cable : cables) {
      for (Stage stage : Stage.values()) {
        List<SurveyRow> done =
            surveys.stream().filter(s -> s.cable() == cable.id() && s.stage() == stage).toList();
        String when = stage == Stage.AS_FOUND ? "as found" : "as left";
        if (done.isEmpty()) {
          gap("Cable " + cable.name() + " was not surveyed " + when, "survey");
        } else if (!measured(shown(done))) {
          gap(
              "Cable " + cable.name() + ", " + when + ": foreign voltage ended the survey",
              "survey");
        }
      }
    }
    if (records.landings().isEmpty()) {
      gap("No landing is written down", "landing");
    }
  }

  /** The one that the report goes by: the last of the free cable, else the last in place. */
  private static SurveyRow shown(List<SurveyRow> done) {
    return done.stream()
        .filter(s -> !s.inPlace())
        .reduce((a, b) -> b)
        .orElseGet(() -> done.get(done.size() - 1));
  }

  /**
   * Whether it came to figures: not where voltage ended it. What can't be read is told elsewhere.
   */
  private static boolean measured(SurveyRow survey) {
    try {
      return !SurveySheet.of(survey.json()).stopped();
    } catch (IOException e) {
      return true;
    }
  }

  private void tried() throws JobFileException {
    if (records.rehearsals().isEmpty()) {
      gap("Nothing shows that the control calls what it should: no rehearsal", "rehearsal");
    }
    if (reader.vigils().isEmpty()) {
      gap("No vigil was kept: faults that come and go were not looked for", "vigil");
    } else if (reader.vigils().stream().anyMatch(v -> v.ending().isEmpty())) {
      gap("A vigil has not ended; the report has what it saw so far", "vigil");
    }
  }

  private void finish() throws JobFileException {
    List<Tick> ticks = records.ticks();
    long settled =
        Checklist.items().stream()
            .filter(
                item ->
                    ticks.stream()
                        .anyMatch(t -> t.item().equals(item.key()) && t.state() != Tick.State.OPEN))
            .count();
    long open = Checklist.items().size() - settled;
    if (open > 0) {
      gap(open + (open == 1 ? " item" : " items") + " of the checklist open", "finish");
    }
    List<Photo> photos = records.photos();
    for (Stage stage : Stage.values()) {
      if (photos.stream().noneMatch(p -> p.stage() == stage)) {
        gap(stage == Stage.AS_FOUND ? "No photograph as found" : "No photograph as left", "finish");
      }
    }
  }

  private void gap(String words, String page) {
    gaps.add(new Gap(words, page));
  }
}
