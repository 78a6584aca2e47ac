package bellwire.app.desk.rehearsal;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import java.nio.file.Path;
import javax.swing.JButton;
import javax.swing.JTextArea;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo's control rehearsed in the window: its missing rest is found. */
@Tag("window")
class RehearsalPageTest {
  @TempDir Path directory;

  @Test
  void theDemosControlIsRehearsedAndItsDefectNamed() throws Exception {
    try (DeskRig rig = DeskRig.demo(directory)) {
      rig.page("rehearsal");
      JButton band = rig.find("band.next", JButton.class);
      rig.until("the file is read", 20, () -> says(band, "Begin"));
      rig.type("rehearsal.time.rest", "no time");
      rig.until("its trouble", 20, () -> says(band, "put right"));
      rig.type("rehearsal.time.rest", "5 min");
      rig.until("it is right again", 20, () -> says(band, "Begin"));
      rig.shot("rehearsal-form");
      rig.press("F5");
      rig.until("a step", 30, () -> says(band, "watched"));
      rig.shot("rehearsal-stage");
      rig.until("it is over", 120, () -> rig.state("rehearsal").endsWith("finding"));
      JTextArea outcome = rig.find("rehearsal.outcome", JTextArea.class);
      rig.until("its outcome", 60, () -> outcome.getText().contains("no-rest"));
      rig.shot("rehearsal-results");
      assertThat(rig.text("rehearsal.outcome")).contains("FINDINGS").contains("remedy:");
      assertThat(rig.text("band.interlock")).contains("board not connected");
    }
  }

  private static boolean says(JButton band, String words) {
    return band.getAccessibleContext().getAccessibleName().contains(words);
  }
}
