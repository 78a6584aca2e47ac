package bellwire.app.desk.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import bellwire.app.job.SurveyRow;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.visit.Boards;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page of surveys in a real window, on the simulated bench. */
@Tag("window")
class SurveyPageTest {
  @TempDir private Path directory;

  private static List<SurveyRow> surveys(DeskRig rig) throws Exception {
    return rig.visit().ask(job -> job.surveys()).get(5, TimeUnit.SECONDS);
  }

  private static void survey(DeskRig rig, int count) {
    JComboBox<?> done = rig.find("survey.survey", JComboBox.class);
    rig.press("F5");
    rig.until("survey " + count, 60, () -> done.getItemCount() == count + 1);
    rig.robot().waitForIdle();
  }

  /** In place, then lifted; the evidence of a conductor is what the job's JSON has. */
  @Test
  void theDemosCableIsSurveyedAndItsEvidenceShown() throws Exception {
    Path file = directory.resolve("job.bellwire");
    try (DeskRig rig = DeskRig.job(file)) {
      rig.visit().boards(new Boards.Demo(false));
      rig.page("survey");
      assertThat(rig.next()).contains("not recorded as proved dead");
      assertThat(rig.text("survey.warning")).contains("Page 2 has no record");
      rig.type("survey.name", "18-8");
      rig.press("ENTER");
      rig.type("survey.gauge", "18 AWG");
      rig.press("ENTER");
      rig.click("survey.lifted");
      survey(rig, 1);
      SurveySheet sheet = SurveySheet.of(surveys(rig).get(0).json());
      assertThat(rig.state("survey")).isEqualTo(sheet.findings().size() + " findings");
      JComponent route = rig.find("survey.route", JComponent.class);
      rig.robot().focusAndWaitForFocusGain(route);
      rig.press("HOME");
      rig.press("ENTER");
      SurveySheet.Conductor c = Objects.requireNonNull(sheet.conductor("P1"));
      assertThat(rig.text("survey.evidence"))
          .contains("P1", "sound", "position " + c.position())
          .contains(new Evidence(sheet, bellwire.app.desk.Units.METRES).of("conductor:P1"));
      rig.shot("survey");
      assertThat(rig.notices()).doesNotContain("TROUBLE");
      assertThat(rig.next()).isEqualTo("Go on to the landing");
    }
  }
}
