package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two programs with a window each on one job file, one of which is killed while somebody types. */
@Tag("window")
@Tag("window")
class TwoWindowsTest {
  private static final int KEYS = 180;

  /** In the time that typing without a pause is kept in at the latest, and some for the machine. */
  private static final int MOST_LOST = (KeptField.LATEST_MILLIS + 1000) / TypingDesk.KEY_MILLIS;

  @TempDir Path directory;

  @Test
  void theSecondIsRefusedWithTheWayOutAndAKilledOneLosesTheLastKeysOnly() throws Exception {
    DeskRig.require();
    Path file = directory.resolve("mill.bellwire");
    Process other =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-Duser.home=" + directory,
                "-cp",
                System.getProperty(
                    "surefire.test.class.path", System.getProperty("java.class.path")),
                TypingDesk.class.getName(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    int typed = 0;
    try (DeskRig rig = DeskRig.empty(directory);
        BufferedReader said = other.inputReader()) {
      typed = Integer.parseInt(said.readLine());
      rig.run(w -> w.openJob(file));
      rig.until("it is refused", 20, () -> !rig.window().notices().shown().isEmpty());
      assertThat(rig.notices())
          .startsWith("QUESTION: ")
          .contains("mill.bellwire", "is being written by another program or window; close that");
      assertThat(rig.shows("notice.choose-another-file")).isTrue();
      while (typed < KEYS) {
        typed = Integer.parseInt(said.readLine());
      }
      other.destroyForcibly(); // SIGKILL
      assertThat(other.waitFor(10, TimeUnit.SECONDS)).isTrue();
      rig.click("notice.try-again");
      rig.until("the job is open", 20, () -> rig.window().pages().size() > 1);
      String kept = rig.text("visit.notes");
      System.out.printf(
          "TwoWindowsTest: %d keys without a pause, %d ms apart, then killed: %d kept%n",
          typed, TypingDesk.KEY_MILLIS, kept.length());
      StringBuilder all = new StringBuilder();
      for (int i = 0; i < typed; i++) {
        all.append(TypingDesk.letter(i));
      }
      assertThat(all.toString()).startsWith(kept.substring(0, Math.min(typed, kept.length())));
      assertThat(typed - kept.length()).isLessThanOrEqualTo(MOST_LOST);
      assertThat(kept.length()).isPositive();
    } finally {
      other.destroyForcibly();
    }
  }
}
