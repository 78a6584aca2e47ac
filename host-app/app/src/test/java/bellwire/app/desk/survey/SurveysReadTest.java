package bellwire.app.desk.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That a survey is read once, and again where its colours change. */
class SurveysReadTest {
  private static final String VOLTAGE =
      "{\"interlock\": {\"stopped-the-survey\": true}, \"conductors\": []}";

  @TempDir Path directory;

  @Test
  void aSurveyIsReadOnceUnlessItsColoursChange() throws Exception {
    try (JobFile file = JobFile.open(directory.resolve("job.bellwire"))) {
      JobRecords job = file.records();
      long cable = job.put(new CableRow(0, "18-5", "", 20, 21, "", "", ""));
      SurveyRow row =
          new SurveyRow(0, cable, false, Stage.AS_FOUND, 1, VOLTAGE, new byte[] {1, 2, 3});
      job.add(row);
      SurveysRead read = new SurveysRead();
      Snapshot first = Snapshot.read(job, cable, read);
      job.add(row);
      Snapshot second = Snapshot.read(job, cable, read);
      assertThat(first.surveys()).hasSize(1);
      assertThat(second.surveys()).hasSize(2);
      assertThat(second.surveys().get(0)).isSameAs(first.surveys().get(0));
      assertThat(second.surveys().get(1).row().id()).isEqualTo(2);
      job.put(new ConductorRow(cable, 0, "red", "", ""));
      assertThat(Snapshot.read(job, cable, read).surveys().get(0))
          .isNotSameAs(first.surveys().get(0));
      assertThat(job.surveyResults()).extracting(SurveyRow::id).containsExactly(1L, 2L);
      assertThat(job.surveyResults().get(0).readings()).isEmpty();
      assertThat(job.surveys().get(0).readings()).containsExactly(1, 2, 3);
      assertThat(job.surveyResults())
          .extracting(SurveyRow::json)
          .isEqualTo(job.surveys().stream().map(SurveyRow::json).toList());
    }
  }

  @Test
  void whatCannotBeReadIsToldAndReadOnceToo() {
    SurveysRead read = new SurveysRead();
    SurveyRow row = new SurveyRow(7, 1, false, Stage.AS_FOUND, 1, "{", new byte[0]);
    Seen seen = read.of(row, List.of());
    assertThat(seen.trouble()).isNotEmpty();
    assertThat(read.of(row, List.of())).isSameAs(seen);
  }
}
