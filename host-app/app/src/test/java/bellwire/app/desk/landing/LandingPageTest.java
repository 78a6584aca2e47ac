package bellwire.app.desk.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Point.Side;
import bellwire.app.desk.DeskRig;
import bellwire.app.job.CableRow;
import bellwire.app.job.JobFile;
import bellwire.app.job.LandingRow;
import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.awt.Point;
import java.awt.geom.Rectangle2D;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JTabbedPane;
import javax.swing.text.JTextComponent;
import org.assertj.swing.core.MouseButton;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page of landings in a real window: by keys, by pointer, with findings as one edits. */
@Tag("window")
class LandingPageTest {
  @TempDir private Path directory;

  /** One window for all: each part leaves the landing as it found it. */
  @Test
  void theLandingIsEditedCheckedAndPlanned() throws Exception {
    try (DeskRig rig = rig("example-before-power")) {
      editsByKeysAreCheckedStoredAndTakenBack(rig);
      anEndIsDraggedToATerminalAndFreedByAKey(rig);
      aFindingLightsItsCurrent(rig);
      aProposedLandingIsTakenAsOneEdit(rig);
    }
  }

  private DeskRig rig(String example) throws Exception {
    Path file = directory.resolve("job.bellwire");
    try (JobFile job = JobFile.open(file)) {
      long cable =
          job.records().put(new CableRow(0, "18-6", "18 AWG", 24, 22, "attic", "hall", ""));
      String text = LandingDraft.read(example, Described.text(example)).text();
      job.records().put(new LandingRow(0, cable, 1, text));
    }
    DeskRig rig = DeskRig.job(file);
    rig.page("landing");
    rig.robot().focusAndWaitForFocusGain(rig.find("landing.strips", JComponent.class));
    return rig;
  }

  private static LandingDraft stored(DeskRig rig) throws Exception {
    List<LandingRow> rows = rig.visit().ask(job -> job.landings()).get(5, TimeUnit.SECONDS);
    assertThat(rows).hasSize(1);
    return LandingDraft.read("stored", rows.get(0).text());
  }

  private static void verdict(DeskRig rig, String words) {
    JTextComponent verdict = rig.find("landing.verdict", JTextComponent.class);
    rig.until(words, 10, () -> verdict.getText().contains(words));
  }

  private static void tab(DeskRig rig, int index) {
    JTabbedPane tabs = rig.find("landing.tabs", JTabbedPane.class);
    rig.run(w -> tabs.setSelectedIndex(index));
  }

  /** The two slips of the example's own comment, put right by keys alone, and taken back. */
  private static void editsByKeysAreCheckedStoredAndTakenBack(DeskRig rig) throws Exception {
    LandingDraft before = stored(rig);
    verdict(rig, "3 findings");
    rig.press("DOWN");
    rig.press("RIGHT");
    rig.press("W");
    rig.press("ENTER");
    assertThat(rig.text("landing.say")).startsWith("white at the control: under W1.");
    rig.press("DOWN");
    rig.press("DOWN");
    rig.press("Y");
    rig.press("ENTER");
    assertThat(rig.text("landing.say")).startsWith("yellow at the control: under Y1.");
    rig.click("landing.jumper.RC-RH");
    verdict(rig, "No finding");
    LandingDraft after =
        before
            .landed(Which.AS_PLANNED, "white", Side.FAR, "W1")
            .landed(Which.AS_PLANNED, "yellow", Side.FAR, "Y1")
            .jumper(Which.AS_PLANNED, before.jumpers(Which.AS_PLANNED).iterator().next(), false);
    assertThat(stored(rig)).isEqualTo(after);
    assertThat(rig.state("landing")).isEqualTo("no finding");
    for (int edits = 0; edits < 3; edits++) {
      rig.press("ctrl Z");
    }
    verdict(rig, "3 findings");
    assertThat(stored(rig)).isEqualTo(before);
    rig.press("ctrl shift Z");
    assertThat(stored(rig)).isEqualTo(before.landed(Which.AS_PLANNED, "white", Side.FAR, "W1"));
    rig.press("ctrl Z");
  }

  private static void anEndIsDraggedToATerminalAndFreedByAKey(DeskRig rig) throws Exception {
    StripsPanel strips = rig.find("landing.strips", StripsPanel.class);
    Point end = centre(rig, strips, "end:far:white");
    Point clamp = centre(rig, strips, "far:W1");
    rig.robot().pressMouse(strips, end, MouseButton.LEFT_BUTTON);
    rig.robot().moveMouse(strips, new Point((end.x + clamp.x) / 2, (end.y + clamp.y) / 2));
    rig.robot().moveMouse(strips, clamp);
    rig.robot().releaseMouseButtons();
    rig.robot().waitForIdle();
    assertThat(far(stored(rig), "white")).isEqualTo("W1");
    rig.press("F");
    assertThat(far(stored(rig), "white")).isNull();
    // Let go beside every terminal: nothing moves.
    Point free = centre(rig, strips, "end:far:white");
    rig.robot().pressMouse(strips, free, MouseButton.LEFT_BUTTON);
    rig.robot().moveMouse(strips, new Point(strips.getWidth() / 2, 4));
    rig.robot().releaseMouseButtons();
    rig.robot().waitForIdle();
    assertThat(far(stored(rig), "white")).isNull();
    rig.press("ctrl Z");
    rig.press("ctrl Z");
  }

  private static String far(LandingDraft draft, String conductor) {
    return draft.plan(Which.AS_PLANNED).landed().stream()
        .filter(l -> l.conductor().equals(conductor))
        .findFirst()
        .orElseThrow()
        .far();
  }

  private static Point centre(DeskRig rig, StripsPanel strips, String key) {
    Rectangle2D box = rig.get(() -> strips.place(key).orElseThrow());
    return new Point((int) box.getCenterX(), (int) box.getCenterY());
  }

  /** Followed by hand: heat closes W1 to RH; RH is joined to RC; yellow leads from W1 to Y. */
  private static void aFindingLightsItsCurrent(DeskRig rig) throws Exception {
    verdict(rig, "3 findings");
    StripsPanel strips = rig.find("landing.strips", StripsPanel.class);
    JList<?> list = rig.find("landing.findings", JList.class);
    rig.run(w -> list.setSelectedIndex(1));
    assertThat(rig.text("landing.finding")).contains("white and yellow are exchanged");
    assertThat(rig.get(strips::lit))
        .isEqualTo(
            Set.of(
                "near:RC",
                "conductor:black",
                "far:RC",
                "jumper:far:RC-RH",
                "far:RH",
                "far:W1",
                "conductor:yellow",
                "near:Y",
                "near:C"));
    tab(rig, 1);
    JList<?> calls = rig.find("landing.calls", JList.class);
    rig.run(w -> calls.setSelectedIndex(0));
    rig.click("landing.calls.next");
    assertThat(rig.get(calls::getSelectedIndex)).isEqualTo(1);
    assertThat(rig.text("landing.call")).contains("The control closes");
  }

  private static void aProposedLandingIsTakenAsOneEdit(DeskRig rig) throws Exception {
    LandingDraft before = stored(rig);
    tab(rig, 2);
    rig.click("landing.propose");
    JComponent take = rig.find("landing.take", JComponent.class);
    rig.until("a proposal", 30, take::isEnabled);
    assertThat(rig.text("landing.proposal"))
        .contains("blue at the equipment: from a free end to C");
    rig.click("landing.take");
    tab(rig, 0);
    verdict(rig, "No finding");
    assertThat(stored(rig)).isNotEqualTo(before);
    rig.press("ctrl Z");
    assertThat(stored(rig)).isEqualTo(before);
    rig.shot("landing");
    assertThat(rig.notices()).doesNotContain("TROUBLE");
  }
}
