package bellwire.app.desk.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.app.bench.BenchTransport;
import bellwire.app.desk.DeskRig;
import bellwire.app.job.SurveyRow;
import bellwire.app.report.VoltageText;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.visit.Boards;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import javax.swing.JComboBox;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A survey that finds foreign voltage, in a real window. */
@Tag("window")
class ForeignVoltageTest {
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

  /** 26 V AC between two of the conductors, as a bench file has it. */
  @Test
  void foreignVoltageIsUnmistakable() throws Exception {
    String healthy;
    try (InputStream in = BenchTransport.class.getResourceAsStream("/benches/healthy-5.yaml")) {
      healthy = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    }
    Path bench = directory.resolve("foreign.yaml");
    Files.writeString(
        bench,
        healthy.replace(
            "surroundings: {",
            "surroundings: {foreign: [{between: [P1, P3], volts: 26, hz: 60, ohm: 2}], "));
    try (DeskRig rig = DeskRig.job(directory.resolve("job.bellwire"))) {
      rig.visit().boards(new Boards.Bench(bench, BenchTransport.Pace.FAST));
      rig.page("survey");
      rig.click("survey.lifted");
      survey(rig, 1);
      assertThat(surveys(rig).get(0).inPlace()).isFalse(); // as chosen before the cable had a row
      String json = surveys(rig).get(0).json();
      assertThat(rig.text("survey.voltage.head")).contains(VoltageText.HEADING);
      SurveySheet.Voltage v = Objects.requireNonNull(SurveySheet.of(json).voltage());
      assertThat(v.volts()).isCloseTo(26, within(0.3)); // as the bench has it
      assertThat(rig.text("survey.voltage.figure"))
          .contains("P1", "P3", String.format(Locale.ROOT, "%.1f V", v.volts()), "AC", "DRIVEN");
      assertThat(rig.text("survey.voltage.words"))
          .isEqualTo(String.join("\n\n", VoltageText.lines(json)))
          .contains("driven", "prove it dead");
      assertThat(rig.text("band.interlock")).contains("VOLTAGE AT P1", "P3");
      assertThat(rig.state("survey")).isEqualTo("VOLTAGE");
      rig.shot("survey-voltage");
    }
  }
}
