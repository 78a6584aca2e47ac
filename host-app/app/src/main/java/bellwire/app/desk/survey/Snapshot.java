package bellwire.app.desk.survey;

import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * What the job tells this page.
 *
 * @param cable in view; of key 0 where the job has none yet
 * @param conductors by port, 0 for P1
 * @param surveys of this cable, oldest first
 * @param acts kinds of act that were recorded and not withdrawn
 * @param worked whether the job tells of work done after the first lifted survey: a rehearsal, an
 *     item of the checklist, power switched on again, a fuse; or a survey as left
 */
record Snapshot(
    List<CableRow> cables,
    CableRow cable,
    Map<Integer, ConductorRow> conductors,
    List<Seen> surveys,
    Set<Act.Kind> acts,
    boolean worked,
    int mainsHertz) {

  /** One of which nothing is known. */
  static final CableRow NEW = new CableRow(0, "", "", Double.NaN, Double.NaN, "", "", "");

  static final Snapshot EMPTY =
      new Snapshot(List.of(), NEW, Map.of(), List.of(), Set.of(), false, 60);

  /**
   * On the job's thread.
   *
   * @param wanted cable; 0 for the first
   * @param read what was read before
   */
  static Snapshot read(JobRecords job, long wanted, SurveysRead read) throws JobFileException {
    List<CableRow> cables = job.cables();
    CableRow cable = cables.isEmpty() ? NEW : cables.get(0);
    for (CableRow one : cables) {
      cable = one.id() == wanted ? one : cable;
    }
    Map<Integer, ConductorRow> conductors = new TreeMap<>();
    List<Seen> surveys = new ArrayList<>();
    if (cable.id() != 0) {
      List<ConductorRow> rows = job.conductors(cable.id());
      rows.forEach(row -> conductors.put(row.port(), row));
      for (SurveyRow row : job.surveyResults()) {
        if (row.cable() == cable.id()) {
          surveys.add(read.of(row, rows));
        }
      }
    }
    Set<Act.Kind> acts = EnumSet.noneOf(Act.Kind.class);
    for (Act act : job.acts()) {
      if (!act.withdrawn()) {
        acts.add(act.kind());
      }
    }
    int hertz = job.fact(Fact.MAINS_HERTZ).strip().equals("50") ? 50 : 60;
    return new Snapshot(
        cables,
        cable,
        Map.copyOf(conductors),
        List.copyOf(surveys),
        Set.copyOf(acts),
        worked(job, surveys),
        hertz);
  }

  private static boolean worked(JobRecords job, List<Seen> surveys) throws JobFileException {
    long lifted = Long.MAX_VALUE;
    for (Seen one : surveys) {
      if (one.row().stage() == Stage.AS_LEFT) {
        return true;
      }
      if (!one.row().inPlace() && one.hasResult()) {
        lifted = Math.min(lifted, one.row().atUnixMicros());
      }
    }
    long after = lifted;
    return job.lastRehearsalUnixMicros() > after
        || job.ticks().stream()
            .anyMatch(t -> t.state() == Tick.State.DONE && t.atUnixMicros() > after)
        || job.acts().stream()
            .filter(a -> a.kind() == Act.Kind.SWITCHED_ON || a.kind() == Act.Kind.FUSE_REPLACED)
            .anyMatch(a -> !a.withdrawn() && a.atUnixMicros() > after);
  }

  /** Whether the cable was said to be dead on page 2. */
  boolean provedDead() {
    return acts.contains(Act.Kind.SWITCHED_OFF) && acts.contains(Act.Kind.PROVED_DEAD);
  }

  Map<Integer, String> nearColours() {
    Map<Integer, String> colours = new TreeMap<>();
    conductors.forEach(
        (port, row) -> {
          if (!row.nearColour().isBlank()) {
            colours.put(port, row.nearColour().strip());
          }
        });
    return colours;
  }

  Map<Integer, String> farColours() {
    Map<Integer, String> colours = new TreeMap<>();
    conductors.forEach(
        (port, row) -> {
          if (!row.farColour().isBlank()) {
            colours.put(port, row.farColour().strip());
          }
        });
    return colours;
  }
}
