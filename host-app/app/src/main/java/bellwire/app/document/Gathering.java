package bellwire.app.document;

import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Checked;
import bellwire.app.document.ReportContents.Landing;
import bellwire.app.document.ReportContents.Rehearsal;
import bellwire.app.document.ReportContents.Shot;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Photo;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.job.VigilRow;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.survey.SurveyTape;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilLoader;
import bellwire.app.visit.StoredRehearsal;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/** Reads a job for its report; what fails is told and passed over. */
final class Gathering {
  private final JobReader reader;
  private final boolean pictures;
  private final BooleanSupplier cancelled;
  private final List<String> troubles = new ArrayList<>();

  Gathering(JobReader reader, boolean pictures, BooleanSupplier cancelled) {
    this.reader = reader;
    this.pictures = pictures;
    this.cancelled = cancelled;
  }

  private void goOn() {
    if (cancelled.getAsBoolean()) {
      throw new CancellationException();
    }
  }

  /** Something to be read. */
  private interface Reading<T> {
    T read() throws JobFileException;
  }

  private <T> T reading(String what, T otherwise, Reading<T> reading) {
    try {
      return reading.read();
    } catch (JobFileException | RuntimeException e) {
      troubles.add("Not read, " + what + ": " + why(e));
      return otherwise;
    }
  }

  private static String why(Exception e) {
    String words = e.getMessage();
    return words == null ? e.getClass().getSimpleName() : words;
  }

  ReportContents read(Instant now, ZoneId zone, String version) {
    JobRecords records = reader.records();
    Map<Fact, String> facts = new EnumMap<>(Fact.class);
    for (Fact fact : Fact.values()) {
      String told = reading("a fact", "", () -> records.fact(fact));
      if (!told.isEmpty()) {
        facts.put(fact, told);
      }
    }
    List<Act> acts = reading("what was switched off and proved", List.of(), records::acts);
    List<Cable> cables = cables(records);
    List<Landing> landings =
        reading("the landings", List.<LandingRow>of(), records::landings).stream()
            .map(Gathering::landing)
            .toList();
    List<Rehearsal> rehearsals =
        reading("the rehearsals", List.<RehearsalRow>of(), records::rehearsals).stream()
            .map(this::rehearsal)
            .toList();
    List<Vigil> vigils =
        reading("the vigils", List.<VigilRow>of(), reader::vigils).stream()
            .map(this::vigil)
            .toList();
    List<Tick> ticks = reading("the checklist", List.of(), records::ticks);
    List<Shot> photos =
        reading("the photographs", List.<Photo>of(), records::photos).stream()
            .map(photo -> shot(records, photo))
            .toList();
    String digest = reading("the job's digest", "", records::digest);
    return new ReportContents(
        reader.path(),
        now,
        zone,
        version,
        Map.copyOf(facts),
        acts,
        cables,
        landings,
        rehearsals,
        vigils,
        ticks,
        photos,
        digest,
        List.copyOf(troubles));
  }

  private List<Cable> cables(JobRecords records) {
    List<SurveyRow> surveys = reading("the surveys", List.of(), records::surveys);
    List<Cable> all = new ArrayList<>();
    for (CableRow row : reading("the cables", List.<CableRow>of(), records::cables)) {
      all.add(
          new Cable(
              row,
              reading("a cable's conductors", List.of(), () -> records.conductors(row.id())),
              surveys.stream().filter(s -> s.cable() == row.id()).map(Gathering::survey).toList()));
    }
    return all;
  }

  private static Survey survey(SurveyRow row) {
    String selfCheck = SurveyTape.selfCheck(row.readings());
    try {
      return new Survey(row, Optional.of(SurveySheet.of(row.json())), selfCheck, "");
    } catch (IOException | RuntimeException e) {
      return new Survey(row, Optional.empty(), selfCheck, why(e));
    }
  }

  private static Landing landing(LandingRow row) {
    LandingDraft draft;
    try {
      draft = LandingDraft.read("landing " + row.id(), row.text());
    } catch (FileException | RuntimeException e) {
      return new Landing(row, Optional.empty(), Optional.empty(), Optional.empty(), why(e));
    }
    try {
      return new Landing(
          row,
          Optional.of(draft),
          checked(draft, Which.AS_FOUND),
          checked(draft, Which.AS_PLANNED),
          "");
    } catch (RuntimeException e) {
      return new Landing(row, Optional.of(draft), Optional.empty(), Optional.empty(), why(e));
    }
  }

  /** A plan with nothing landed is none, and is not checked. */
  private static Optional<Checked> checked(LandingDraft draft, Which which) {
    Installation installation = draft.installation(which);
    if (installation == null
        || draft.plan(which).landed().stream().allMatch(l -> l.near() == null || l.far() == null)) {
      return Optional.empty();
    }
    Simulation simulation = new Simulation(installation);
    return Optional.of(
        new Checked(
            installation, simulation.states(), LandingCheck.check(installation, simulation)));
  }

  private Rehearsal rehearsal(RehearsalRow row) {
    goOn();
    if (row.trace().length == 0) {
      return new Rehearsal(row, Optional.empty(), "its record was not kept");
    }
    try {
      return new Rehearsal(row, Optional.of(StoredRehearsal.outcome(row)), "");
    } catch (IOException | RuntimeException e) {
      return new Rehearsal(row, Optional.empty(), why(e));
    }
  }

  private Vigil vigil(VigilRow row) {
    try {
      return new Vigil(
          row,
          Optional.of(VigilLoader.load(reader, row.id(), Part.ALL, Counting.EACH, share -> goOn())),
          "");
    } catch (CancellationException e) {
      throw e;
    } catch (BadVigil | JobFileException | RuntimeException e) {
      return new Vigil(row, Optional.empty(), why(e));
    }
  }

  private Shot shot(JobRecords records, Photo photo) {
    goOn();
    if (!pictures) {
      return new Shot(photo, Optional.empty(), "");
    }
    try {
      return new Shot(photo, Optional.of(Photographs.scaled(records.photoBytes(photo.id()))), "");
    } catch (IOException | RuntimeException e) {
      return new Shot(photo, Optional.empty(), why(e));
    }
  }
}
