package bellwire.app.desk.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import bellwire.app.job.VigilReader;
import bellwire.app.vigil.VigilPrompts;
import java.nio.file.Path;
import javax.swing.JTextArea;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A vigil at the demo's house by keyboard: begun, marked, ended, looked at again. */
@Tag("window")
class VigilPageTest {
  @TempDir Path directory;

  @Test
  void aVigilIsBegunMarkedEndedAndLookedAtAgain() throws Exception {
    try (DeskRig rig = DeskRig.demo(directory)) {
      rig.page("vigil");
      rig.type("vigil.ports", "P1=red,P2=white,P3=green");
      rig.type("vigil.length", "forever");
      assertThat(rig.next()).startsWith("Say how long");
      rig.type("vigil.length", "8 h");
      rig.shot("vigil-form");
      rig.press("F5");
      rig.until("it is under way", 30, () -> rig.state("vigil").endsWith(" to go"));
      rig.press("SPACE");
      rig.type("vigil.note", "fan on");
      rig.press("ENTER");
      StripChart live = rig.find("vigil.live.chart", StripChart.class);
      rig.until("a chart", 30, () -> live.picture() != null);
      rig.shot("vigil-watching");
      rig.click("vigil.end");
      rig.click("notice.end-it");
      rig.until("it is over", 60, () -> rig.state("vigil").startsWith("1 vigil, "));
      JTextArea statement = rig.find("vigil.statement", JTextArea.class);
      rig.until("its statement", 60, () -> statement.getText().contains("STATEMENT"));
      StripChart kept = rig.find("vigil.kept.chart", StripChart.class);
      rig.until("its chart", 30, () -> kept.picture() != null);
      rig.shot("vigil-kept");
      assertThat(rig.text("band.interlock")).contains("board not connected");
      assertThat(VigilReader.vigils(rig.visit().file())).hasSize(1);
      try (VigilReader reader = VigilReader.open(rig.visit().file(), 1)) {
        assertThat(reader.marks().stream().map(m -> m.text()).toList())
            .containsExactly(VigilPrompts.SHOOK, "fan on");
        assertThat(reader.watched().orElseThrow().names()).containsEntry(1, "white");
      }
    }
  }
}
