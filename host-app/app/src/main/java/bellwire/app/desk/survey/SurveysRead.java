package bellwire.app.desk.survey;

import bellwire.app.job.ConductorRow;
import bellwire.app.job.SurveyRow;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Surveys of the job as they were read, so that a change of something else does not read them all
 * again: a survey is added and never changed. Used on the job's thread.
 */
final class SurveysRead {
  private record One(List<ConductorRow> colours, Seen seen) {}

  private final Map<Long, One> read = new HashMap<>();

  /** The same as before where neither survey nor colours are other ones. */
  Seen of(SurveyRow row, List<ConductorRow> colours) {
    One before = read.get(row.id());
    if (before != null && before.colours().equals(colours)) {
      return before.seen();
    }
    Seen seen = Seen.of(row, colours);
    read.put(row.id(), new One(List.copyOf(colours), seen));
    return seen;
  }
}
