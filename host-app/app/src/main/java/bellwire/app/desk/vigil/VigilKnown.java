package bellwire.app.desk.vigil;

import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.SurveyRow;
import bellwire.app.sheet.SurveySheet;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the job tells of the cable that a vigil would watch.
 *
 * @param cable the one surveyed last, else the first; null without one
 * @param fit ports of conductors that go through to the far end and touch no other, by the last
 *     survey with the conductors lifted; null where there was none
 */
record VigilKnown(
    @Nullable CableRow cable,
    List<ConductorRow> conductors,
    @Nullable Set<String> fit,
    int mainsHertz) {

  /** On the job's thread. */
  static VigilKnown read(JobRecords job) throws JobFileException {
    List<CableRow> cables = job.cables();
    CableRow cable = cables.isEmpty() ? null : cables.get(0);
    Set<String> fit = null;
    List<SurveyRow> surveys = job.surveyResults();
    for (int i = surveys.size() - 1; i >= 0 && fit == null; i--) {
      SurveyRow row = surveys.get(i);
      Optional<Set<String>> told = row.inPlace() ? Optional.empty() : fit(row);
      if (told.isPresent()) {
        fit = told.get();
        for (CableRow one : cables) {
          cable = one.id() == row.cable() ? one : cable;
        }
      }
    }
    return new VigilKnown(
        cable,
        cable == null ? List.of() : job.conductors(cable.id()),
        fit,
        job.fact(Fact.MAINS_HERTZ).strip().equals("50") ? 50 : 60);
  }

  private static Optional<Set<String>> fit(SurveyRow row) {
    try {
      SurveySheet sheet = SurveySheet.of(row.json());
      return sheet.stopped() ? Optional.empty() : Optional.of(fit(sheet));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** Not broken and touching none: a joint or a worn contact is what a vigil is for. */
  static Set<String> fit(SurveySheet sheet) {
    Set<String> fit = new HashSet<>();
    for (SurveySheet.Conductor c : sheet.conductors()) {
      boolean through = c.position() > 0 || c.ohms() != null;
      if (c.openAt() == null && through) {
        fit.add(c.port());
      }
    }
    for (SurveySheet.Finding f : sheet.findings()) {
      boolean unfit =
          switch (f.kind()) {
            case "open", "broken-beside", "hidden" -> true;
            default -> f.kind().startsWith("touching") || f.kind().startsWith("attached");
          };
      if (unfit) {
        f.ports().forEach(fit::remove);
      }
    }
    return Set.copyOf(fit);
  }

  /** As the form takes them: 'P1=red,P2=white'; empty where fewer than two would do. */
  String ports() {
    boolean ends = conductors.stream().anyMatch(c -> !c.farColour().isBlank());
    List<String> named = new ArrayList<>();
    for (ConductorRow each : conductors) {
      String port = "P" + (each.port() + 1);
      // Without a survey: nothing is known of a far end to be tied.
      boolean fits = fit != null ? fit.contains(port) : !ends || !each.farColour().isBlank();
      if (fits) {
        String colour = each.nearColour().replace(',', ' ').strip();
        named.add(port + (colour.isEmpty() ? "" : "=" + colour));
      }
    }
    return named.size() < 2 ? "" : String.join(",", named);
  }
}
