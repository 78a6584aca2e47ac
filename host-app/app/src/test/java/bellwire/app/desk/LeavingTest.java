package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Fact;
import bellwire.app.job.FullFile;
import bellwire.app.job.JobFile;
import bellwire.app.visit.Boards;
import java.awt.Window;
import java.awt.event.WindowEvent;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That neither a full disk nor a closed window loses anything unasked. */
@Tag("window")
@Tag("window")
class LeavingTest {
  private static final String LONG = "rust in the sub-base, ".repeat(400);

  @TempDir Path directory;

  @Test
  void whatIsTypedOnAFullDiskStaysAndIsKeptWhenThereIsRoom() throws Exception {
    DeskRig.require();
    Path file = directory.resolve("full.bellwire");
    try (DeskRig rig = DeskRig.job(file)) {
      rig.type("visit.customer", "A. Miller");
      rig.until("kept", 5, () -> rig.window().current().state().equals("A. Miller"));
      rig.visit().ask(all -> FullFile.full(all, true)).get(10, TimeUnit.SECONDS);
      JTextComponent notes = rig.find("visit.notes", JTextComponent.class);
      rig.run(w -> notes.setText(LONG));
      rig.until("it is told", 10, () -> rig.notices().contains("1 change waits"));
      assertThat(rig.notices())
          .contains("TROUBLE: ", "full.bellwire", "the disk is full; make room");
      rig.page("safe");
      rig.press("F5"); // the cautions are read: one act more that waits
      rig.until("both wait", 10, () -> rig.notices().contains("2 changes wait"));
      rig.page("visit");
      assertThat(rig.text("visit.notes")).isEqualTo(LONG);

      closed(rig);
      assertThat(rig.notices()).contains("QUESTION: ", "would be lost");
      rig.shot("close-on-full-disk");
      rig.click("notice.stay,-and-make-room");
      assertThat(rig.get(() -> rig.window().frame().isVisible())).isTrue();

      rig.visit().ask(all -> FullFile.full(all, false)).get(10, TimeUnit.SECONDS);
      rig.until("it is kept", 10, () -> rig.notices().contains("There is room again"));
      assertThat(rig.notices()).doesNotContain("TROUBLE");
      rig.until("the act is shown", 10, () -> rig.state("safe").startsWith("1 of"));
      assertThat(rig.text("visit.notes")).isEqualTo(LONG);
    }
    try (JobFile job = JobFile.open(file)) {
      assertThat(job.records().fact(Fact.NOTES)).isEqualTo(LONG.strip());
      assertThat(job.records().acts()).hasSize(1);
    }
  }

  /** By the window's own button. */
  private static void closed(DeskRig rig) {
    rig.run(
        w -> {
          Window frame = w.frame();
          frame.dispatchEvent(new WindowEvent(frame, WindowEvent.WINDOW_CLOSING));
        });
    rig.robot().waitForIdle();
  }

  @Test
  void aSurveyIsNotBrokenOffByAClosedWindowUnasked() throws Exception {
    DeskRig.require();
    try (DeskRig rig = DeskRig.demo(directory)) {
      rig.page("survey");
      rig.run(w -> w.progress().begin("survey of nothing", () -> {}));
      closed(rig);
      assertThat(rig.notices()).contains("survey of nothing");
      rig.click("notice.let-it-finish");
      assertThat(rig.notices()).isEmpty();
      rig.run(w -> w.progress().running().end());
      rig.visit().boards(new Boards.Demo(true)); // in its own time, which is minutes
      rig.press("F5");
      rig.until("it runs", 20, () -> rig.window().progress().running() != null);
      rig.run(w -> w.openJob(directory.resolve("other.bellwire")));
      closed(rig);
      assertThat(rig.notices().lines().filter(line -> line.startsWith("QUESTION"))).hasSize(1);
      assertThat(rig.notices()).contains("A survey is under way. Left now, it is broken off");
      rig.click("notice.go-on-with-it");
      assertThat(rig.state("survey")).isEqualTo("measuring");
      closed(rig);
      rig.click("notice.break-it-off");
      rig.window().closed().get(20, TimeUnit.SECONDS);
    }
  }
}
