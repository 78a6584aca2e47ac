package bellwire.app.visit;

import bellwire.analysis.survey.CableFacts;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.survey.SurveyOptions;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Puts what was done at the command line into a job file, made where there is none.
 *
 * @param job the file
 * @param cable the cable's name in it; empty for the only one
 * @param stage before the work or after it
 */
public record Filing(Path job, String cable, Stage stage) {

  /** Says early what would be said too late: that the file can't be written, or is in use. */
  public void check() throws JobFileException {
    JobFile.open(job).close();
  }

  /**
   * Files a survey under its cable, which is added where it is new; colours that the cable has
   * already stay.
   *
   * @param tape see {@link bellwire.app.survey.SurveyTape}
   * @return its key
   */
  public long survey(
      String json,
      byte[] tape,
      boolean inPlace,
      SurveyOptions options,
      Map<Integer, String> colours)
      throws JobFileException {
    try (JobFile file = JobFile.open(job)) {
      JobRecords records = file.records();
      long id = cableOf(records, options.facts());
      Set<Integer> known =
          records.conductors(id).stream().map(ConductorRow::port).collect(Collectors.toSet());
      for (Map.Entry<Integer, String> colour : colours.entrySet()) {
        if (!known.contains(colour.getKey())) {
          records.put(new ConductorRow(id, colour.getKey(), colour.getValue(), "", ""));
        }
      }
      return records.add(new SurveyRow(0, id, inPlace, stage, now(), json, tape));
    }
  }

  private long cableOf(JobRecords records, CableFacts facts) throws JobFileException {
    List<CableRow> all = records.cables();
    for (CableRow row : all) {
      if (row.name().equals(cable) || cable.isEmpty() && all.size() == 1) {
        return row.id();
      }
    }
    String gauge = facts.gauge() == null ? "" : facts.gauge().label();
    return records.put(
        new CableRow(
            0,
            cable.isEmpty() ? "cable" : cable,
            gauge,
            facts.metres(),
            facts.celsius(),
            "",
            "",
            ""));
  }

  /**
   * Files a rehearsal.
   *
   * @param file the rehearsal file's text
   * @param trace see {@link bellwire.app.rehearsal.TraceWriter}
   * @return its key
   */
  public long rehearsal(boolean live, String file, Set<String> options, String json, byte[] trace)
      throws JobFileException {
    try (JobFile job = JobFile.open(this.job)) {
      List<String> chosen = options.stream().sorted().toList();
      return job.records().add(new RehearsalRow(0, now(), live, file, chosen, json, trace));
    }
  }

  /**
   * Files a landing.
   *
   * @param text a landing file that needs no other
   * @return its key
   */
  public long landing(String text) throws JobFileException {
    try (JobFile file = JobFile.open(job)) {
      List<CableRow> cables = file.records().cables();
      long cable = cables.size() == 1 ? cables.get(0).id() : 0;
      return file.records().put(new LandingRow(0, cable, now(), text));
    }
  }

  private static long now() {
    return System.currentTimeMillis() * 1000;
  }
}
