package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.InventedVigils;
import bellwire.app.job.JobFile;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.visit.Boards;
import bellwire.app.visit.DemoHouse;
import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import javax.imageio.ImageIO;
import javax.swing.JLabel;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How long the event thread is held where pages, light and size are changed, in a job with a
 * survey, a landing, a vigil and photographs. {@code -Dbellwire.rounds=N} goes round more often and
 * through all lights, and with {@code -Dbellwire.stalls=0}, on a machine that does nothing else,
 * nothing may be longer than 100 ms.
 */
@Tag("window")
@Tag("alone")
class PromptPagesTest {
  private static final int ROUNDS = Integer.getInteger("bellwire.rounds", 1);
  private static final List<Theme> LIGHTS =
      ROUNDS > 1 ? List.of(Theme.values()) : List.of(Theme.DARK, Theme.LIGHT);

  private static final List<String> LOOKED_AT =
      ROUNDS > 1
          ? List.of("visit", "survey", "vigil", "finish", "report")
          : List.of("visit", "survey");

  /**
   * Wall time is not for a gate, whose machine does other work or is slower: changes of light take
   * 80 to 140 ms on one. It lets less than half of the changes pass; more than half were too long
   * when all pages were made over at once.
   */
  private static final int MOST = Integer.getInteger("bellwire.stalls", 8);

  private static final long SEED = 1;

  /**
   * What the window itself holds up shows in every round; another program that had the processors,
   * in one of them.
   */
  private static final int AT_MOST = 3;

  private static final int PHOTOS = 6;

  @TempDir Path directory;

  /** The longest event of each thing that was done, in milliseconds. */
  private final Map<String, Double> longest = new TreeMap<>();

  private final Map<String, Double> now = new TreeMap<>();

  @Test
  void noChangeOfPageLightOrSizeHoldsTheWindow() throws Exception {
    DeskRig.require();
    Path file = directory.resolve("house.bellwire");
    DemoHouse.open(file).close();
    try (JobFile job = JobFile.open(file)) {
      InventedVigils.continuity(job, file, 2, SEED);
      for (int i = 0; i < PHOTOS; i++) {
        Stage stage = i % 2 == 0 ? Stage.AS_FOUND : Stage.AS_LEFT;
        job.records().add(new Photo(0, stage, "wall " + i, i, "", 0), picture(i));
      }
    }
    try (DeskRig rig = DeskRig.job(file)) {
      rig.visit().boards(new Boards.Demo(false));
      rig.page("survey");
      rig.press("F5");
      rig.until("the survey is over", 60, () -> rig.state("survey").contains("finding"));
      round(rig); // loads classes and makes glyphs
      int rounds = ROUNDS > 1 ? ROUNDS : AT_MOST;
      for (int round = 1; round <= rounds && (ROUNDS > 1 || stalls() > MOST); round++) {
        round(rig)
            .forEach((what, ms) -> longest.merge(what, ms, ROUNDS > 1 ? Math::max : Math::min));
      }
    }
    StringBuilder table = new StringBuilder();
    longest.forEach(
        (what, millis) -> table.append(String.format(Locale.ROOT, "%7.1f ms  %s%n", millis, what)));
    System.out.printf("PromptPagesTest: the longest event, seed=%d%n%s", SEED, table);
    assertThat(stalls()).as(table.toString()).isLessThanOrEqualTo(MOST);
  }

  /** More than can be let pass where nothing was measured yet. */
  private long stalls() {
    return longest.isEmpty()
        ? Long.MAX_VALUE
        : longest.values().stream().filter(ms -> ms > EventThreadWatch.LIMIT_MILLIS).count();
  }

  private Map<String, Double> round(DeskRig rig) {
    now.clear();
    pages(rig);
    looks(rig);
    return now;
  }

  private void pages(DeskRig rig) {
    for (Page page : rig.get(() -> List.copyOf(rig.window().pages()))) {
      timed(
          rig,
          "page " + page.key(),
          () -> {
            rig.page(page.key());
            if (page.key().equals("report")) {
              JLabel at = rig.find("report.at", JLabel.class);
              rig.until("the pages are set", 30, () -> at.getText().startsWith("page 1 of"));
            }
          });
    }
    rig.page("finish");
    timed(rig, "photographs", () -> rig.press("alt P"));
    timed(rig, "checklist", () -> rig.press("alt C"));
  }

  private void looks(DeskRig rig) {
    for (String page : LOOKED_AT) {
      rig.page(page);
      for (Theme theme : LIGHTS) {
        timed(rig, "light " + theme.key() + " at " + page, () -> rig.run(w -> w.theme(theme)));
      }
      timed(rig, "size 150 % at " + page, () -> rig.run(w -> w.percent(150)));
      timed(rig, "size 100 % at " + page, () -> rig.run(w -> w.percent(100)));
    }
  }

  private void timed(DeskRig rig, String what, Runnable act) {
    rig.robot().waitForIdle();
    rig.watch().reset();
    act.run();
    rig.robot().waitForIdle();
    rig.robot().waitForIdle(); // what came from other threads
    now.merge(what, rig.watch().worstMillis(), Math::max);
  }

  /** Of a camera's size. */
  private static byte[] picture(int number) throws Exception {
    BufferedImage image = new BufferedImage(2000, 1500, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setPaint(new GradientPaint(0, 0, Color.ORANGE, 2000, 1500 - 200 * number, Color.BLUE));
    g.fillRect(0, 0, 2000, 1500);
    g.dispose();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "jpg", out);
    return out.toByteArray();
  }
}
