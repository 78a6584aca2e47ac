package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Act;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import java.awt.event.KeyEvent;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The first two stops of a visit in a real window, by keyboard and pointer. */
@Tag("alone")
class BeginningTest {
  @TempDir Path directory;

  @BeforeAll
  static void display() {
    DeskRig.require();
  }

  @Test
  void aNewJobIsBegunAndMadeSafeAndFoundAgain() throws Exception {
    Path file = directory.resolve("mill.bellwire");
    try (DeskRig rig = DeskRig.empty(directory)) {
      assertThat(rig.next()).isEqualTo("Begin a new job");
      rig.press("F5");
      rig.shot("choose-job");
      rig.type("files.name", file.toString());
      rig.press("ENTER");
      rig.until("the job is open", 20, () -> rig.window().pages().size() > 1);
      facts(rig);
      rig.shot("visit");
      rig.press("F5");
      rig.until("the second stop", 5, () -> rig.state("visit").equals("A. Miller"));
      acts(rig);
      rig.shot("safe");
      back(rig); // once before it is timed: classes are loaded, glyphs made
      assertThat(rig.fewestStalls(0, () -> back(rig))).as(rig.watch().histogram()).isZero();
      assertThat(rig.watch().events()).isGreaterThan(50);
    }
    try (JobFile job = JobFile.open(file)) {
      assertThat(job.records().fact(Fact.CUSTOMER)).isEqualTo("A. Miller");
      assertThat(job.records().fact(Fact.PLACE)).isEqualTo("Landing");
      assertThat(job.records().fact(Fact.UNITS)).isEqualTo("feet");
      List<Act> acts = job.records().acts();
      assertThat(acts)
          .extracting(Act::kind, Act::withdrawn)
          .containsExactly(
              org.assertj.core.groups.Tuple.tuple(Act.Kind.CAUTIONS_READ, false),
              org.assertj.core.groups.Tuple.tuple(Act.Kind.SWITCHED_OFF, false),
              org.assertj.core.groups.Tuple.tuple(Act.Kind.PROVED_DEAD, true),
              org.assertj.core.groups.Tuple.tuple(Act.Kind.PROVED_DEAD, false),
              org.assertj.core.groups.Tuple.tuple(Act.Kind.CLIPPED_TO_METAL, false));
      assertThat(acts.get(3).reading()).isEqualTo("live 24.6 V, cable 0.0 V, live 24.5 V");
      assertThat(acts).extracting(Act::by).containsOnly("Kim");
    }
    try (DeskRig rig = DeskRig.job(file)) {
      assertThat(rig.get(() -> rig.window().current().key())).as("left at").isEqualTo("safe");
      rig.page("visit");
      rig.until("facts", 5, () -> rig.window().pages().get(0).state().equals("A. Miller"));
      assertThat(rig.text("visit.place")).isEqualTo("Landing");
    }
  }

  /** To and fro between both pages, with words typed that are not recorded. */
  private static void back(DeskRig rig) {
    for (int i = 0; i < 2; i++) {
      rig.page("visit");
      rig.page("safe");
      rig.type("safe.fuse", "5 A as found");
      rig.type("safe.fuse", "");
    }
  }

  private static void facts(DeskRig rig) {
    rig.type("visit.customer", "A. Miller");
    rig.type("visit.place", "Hall");
    rig.press("TAB");
    rig.type("visit.place", "Landing");
    rig.press("ctrl Z");
    assertThat(rig.text("visit.place")).isEqualTo("Hall");
    rig.press("ctrl shift Z");
    assertThat(rig.text("visit.place")).isEqualTo("Landing");
    rig.type("visit.technician", "Kim");
    rig.click("visit.units.feet");
    rig.until("kept", 5, () -> rig.next().startsWith("Go on"));
  }

  private static void acts(DeskRig rig) {
    rig.page("safe");
    assertThat(rig.next()).startsWith("Read the cautions");
    rig.press("F5");
    rig.until("read", 5, () -> rig.state("safe").equals("1 of 4 recorded"));
    rig.press("F5");
    rig.until("asked", 5, () -> rig.notices().contains("Say which supplies"));
    rig.robot().enterText("furnace switch, breaker 7");
    rig.press("F5");
    rig.until("off", 5, () -> rig.state("safe").equals("2 of 4 recorded"));
    readings(rig, "24.6", "3.1", "24.5");
    rig.click("safe.proved");
    // The display server may hand a click on after the window was idle.
    rig.until("refused", 5, () -> rig.notices().contains("TROUBLE: NOT DEAD"));
    assertThat(rig.state("safe")).isEqualTo("2 of 4 recorded");
    readings(rig, "24.6", "0.0", "24.5");
    rig.click("safe.proved");
    rig.until("proved", 5, () -> rig.state("safe").equals("3 of 4 recorded"));
    rig.press("ctrl Z");
    rig.until("withdrawn", 5, () -> rig.state("safe").equals("2 of 4 recorded"));
    rig.press("ctrl shift Z");
    rig.until("proved again", 5, () -> rig.state("safe").equals("3 of 4 recorded"));
    rig.type("safe.metal", "cabinet's earth screw");
    rig.press("F5");
    rig.until("clipped", 5, () -> rig.state("safe").startsWith("dead "));
    assertThat(rig.next()).startsWith("Go on");
  }

  private static void readings(DeskRig rig, String live, String dead, String again) {
    rig.type("safe.live", live);
    rig.type("safe.dead", dead);
    rig.type("safe.again", again);
  }

  @Test
  void aFileInAnotherWindowIsRefusedInTheWindowAndAnotherOffered() throws Exception {
    Path file = directory.resolve("busy.bellwire");
    JobFile other = JobFile.open(file);
    try (DeskRig rig = DeskRig.empty(directory)) {
      rig.run(w -> w.openJob(file));
      rig.until("refused", 10, () -> !rig.window().notices().shown().isEmpty());
      assertThat(rig.notices()).startsWith("QUESTION: ").contains("busy.bellwire");
      rig.shot("in-use");
      other.close();
      rig.click("notice.try-again");
      rig.until("the job is open", 20, () -> rig.window().pages().size() > 1);
      assertThat(rig.notices()).isEmpty();
    } finally {
      other.close();
    }
  }

  @Test
  void keysLightAndSizeWorkWithoutAPointer() throws Exception {
    Path prefs;
    try (DeskRig rig = DeskRig.job(directory.resolve("keys.bellwire"))) {
      prefs = rig.prefs();
      rig.press("F1");
      assertThat(rig.shows("keys")).isTrue();
      rig.shot("keys");
      rig.press("F1");
      rig.press("ESCAPE");
      assertThat(rig.shows("keys")).isFalse();
      rig.press("F8");
      assertThat(rig.get(() -> rig.window().theme())).isEqualTo(Theme.DARK);
      for (int i = 0; i < 4; i++) {
        rig.press("ctrl EQUALS");
      }
      assertThat(rig.get(() -> rig.window().scale())).isEqualTo(2.0);
      rig.page("safe");
      rig.shot("safe-200");
      rig.page("visit");
      rig.shot("visit-200");
      for (int i = 0; i < 3; i++) {
        rig.press("F6");
        rig.press("DOWN");
        rig.robot().pressAndReleaseKeys(KeyEvent.VK_SPACE);
        rig.robot().waitForIdle();
      }
      assertThat(rig.get(() -> rig.window().current().key())).isEqualTo("landing");
      for (Theme theme : List.of(Theme.DIM, Theme.SUNLIGHT)) {
        rig.look(theme, 100);
        rig.page("safe");
        rig.shot("safe");
      }
      rig.look(Theme.DIM, 150);
      rig.size(1300, 700);
    }
    DeskPrefs kept = DeskPrefs.read(prefs);
    assertThat(kept.get("theme", "")).isEqualTo("dim");
    assertThat(kept.number("percent", 0)).isEqualTo(150);
    assertThat(kept.number("width", 0)).isEqualTo(1300);
    assertThat(kept.recent()).contains(directory.resolve("keys.bellwire").toAbsolutePath());
  }
}
