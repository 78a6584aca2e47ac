package bellwire.app.desk.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import bellwire.app.job.SurveyRow;
import bellwire.app.visit.Boards;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A survey stopped, and facts of the cable taken back, in a real window. */
@Tag("window")
class SurveyStoppedTest {
  @TempDir private Path directory;

  private static List<SurveyRow> surveys(DeskRig rig) throws Exception {
    return rig.visit().ask(job -> job.surveys()).get(5, TimeUnit.SECONDS);
  }

  @Test
  void aSurveyIsStoppedAndTheCablesFactsAreTakenBack() throws Exception {
    try (DeskRig rig = DeskRig.job(directory.resolve("job.bellwire"))) {
      rig.visit().boards(new Boards.Demo(true));
      rig.page("survey");
      rig.type("survey.name", "18-8");
      rig.press("ENTER");
      rig.type("survey.length", "24 m");
      rig.press("ENTER");
      rig.press("ctrl Z");
      assertThat(rig.visit().ask(job -> job.cables()).get(5, TimeUnit.SECONDS))
          .singleElement()
          .satisfies(
              c -> {
                assertThat(c.name()).isEqualTo("18-8");
                assertThat(c.metres()).isNaN();
              });
      rig.press("F5");
      rig.until("it measures", 20, () -> rig.state("survey").equals("measuring"));
      rig.press("ESCAPE");
      rig.until("it has stopped", 20, () -> !rig.state("survey").equals("measuring"));
      assertThat(rig.notices()).contains("stopped");
      assertThat(surveys(rig)).isEmpty();
    }
  }
}
