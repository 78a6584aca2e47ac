package bellwire.app.document;

import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.StateResult;
import bellwire.app.document.block.Picture;
import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Photo;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.job.VigilRow;
import bellwire.app.landing.LandingDraft;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.vigil.StoredVigil;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/**
 * Everything of a job, read once: reports, labels and the JSON are made of it, and nothing else.
 * What could not be read has its sentence where the thing itself would be.
 *
 * @param job the file it was read from
 * @param madeAt when
 * @param zone of the times that are shown
 * @param version of this program
 * @param facts those that were told
 * @param landings in the order of their keys
 * @param digest of the job, SHA-256 in hexadecimal; empty where it could not be computed
 * @param troubles what could not be read of the file itself, in sentences
 */
public record ReportContents(
    Path job,
    Instant madeAt,
    ZoneId zone,
    String version,
    Map<Fact, String> facts,
    List<Act> acts,
    List<Cable> cables,
    List<Landing> landings,
    List<Rehearsal> rehearsals,
    List<Vigil> vigils,
    List<Tick> ticks,
    List<Shot> photos,
    String digest,
    List<String> troubles) {

  /** A cable with its surveys, in the order in which they were done. */
  public record Cable(CableRow row, List<ConductorRow> conductors, List<Survey> surveys) {
    /** The last of a stage with a result; one of the free cable before one in place. */
    public Optional<Survey> last(Stage stage) {
      Optional<Survey> free = last(stage, false);
      return free.isPresent() ? free : last(stage, true);
    }

    private Optional<Survey> last(Stage stage, boolean inPlace) {
      return surveys.stream()
          .filter(s -> s.row().stage() == stage && s.row().inPlace() == inPlace)
          .filter(s -> s.sheet().isPresent())
          .reduce((a, b) -> b);
    }
  }

  /**
   * @param selfCheck what the board said of it: 'passed', or why not; empty where it was not told
   * @param trouble why there is no sheet; else empty
   */
  public record Survey(
      SurveyRow row, Optional<SurveySheet> sheet, String selfCheck, String trouble) {}

  /**
   * A landing and what it does, computed anew.
   *
   * @param found as found on the old control; empty where that is not described, or nothing was
   *     written down
   * @param planned on the new control; empty where nothing is landed
   * @param trouble why there is no draft, or no check; else empty
   */
  public record Landing(
      LandingRow row,
      Optional<LandingDraft> draft,
      Optional<Checked> found,
      Optional<Checked> planned,
      String trouble) {}

  /**
   * @param found worst first, notices last
   */
  public record Checked(Installation installation, List<StateResult> states, List<Found> found) {
    public List<Found> faults() {
      return found.stream().filter(f -> !f.notice()).toList();
    }
  }

  /**
   * @param outcome judged again from its record
   * @param trouble why there is no outcome; else empty
   */
  public record Rehearsal(RehearsalRow row, Optional<RehearsalOutcome> outcome, String trouble) {}

  /**
   * @param trouble why there is nothing to tell; else empty
   */
  public record Vigil(VigilRow row, Optional<StoredVigil> stored, String trouble) {}

  /**
   * A photograph.
   *
   * @param trouble why there is no picture; else empty
   */
  public record Shot(Photo row, Optional<Picture> picture, String trouble) {}

  /**
   * Reads a job, beside a writer where there is one. Takes as long as the vigils in it take to be
   * read: never on the event thread.
   *
   * @param zone of the times that are shown
   * @param version of this program, such as "0.7"
   * @throws JobFileException where it is no job file at all, or can't be opened
   */
  public static ReportContents gather(Path job, Instant now, ZoneId zone, String version)
      throws JobFileException {
    try (JobReader reader = JobReader.open(job)) {
      return gather(reader, now, zone, version, true, () -> false);
    }
  }

  /**
   * The same in the state of the file that a reader sees.
   *
   * @param pictures whether the photographs' pictures are made ready; else there are none, and no
   *     trouble of any
   * @param cancelled asked now and then, from within a vigil too
   * @throws CancellationException where it was
   */
  public static ReportContents gather(
      JobReader reader,
      Instant now,
      ZoneId zone,
      String version,
      boolean pictures,
      BooleanSupplier cancelled) {
    return new Gathering(reader, pictures, cancelled).read(now, zone, version);
  }

  /** Empty where not told. */
  public String fact(Fact fact) {
    return facts.getOrDefault(fact, "");
  }

  /** Whether lengths are shown in feet. */
  public boolean feet() {
    return fact(Fact.UNITS).equals("feet");
  }
}
