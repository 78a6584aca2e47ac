package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.vigil.StripChart;
import bellwire.app.job.InventedVigils;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.assertj.swing.timing.Condition;
import org.assertj.swing.timing.Pause;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * That a job that is closed leaves nothing behind: no thread, no open file, no demo's directory.
 */
@Tag("window")
@Tag("window")
class NothingIsLeftTest {
  private static final long SEED = 1;
  private static final List<String> OWN = List.of("bellwire-", "desk-", "vigil-");
  private static final int TIMES = 5;

  @TempDir Path directory;

  @Test
  void threadsAndFilesEndWithTheJobAndItsDeskIsKeptAsItWasLeft() throws Exception {
    DeskRig.require();
    Path mill = job("mill.bellwire");
    Path brook = job("brook.bellwire");
    Set<Thread> before = threads();
    try (DeskRig rig = DeskRig.job(mill)) {
      look(rig);
      int withOneJob = threads().size();
      for (int i = 0; i < TIMES; i++) {
        Path next = i % 2 == 0 ? brook : mill;
        rig.run(w -> w.openJob(next));
        rig.until(
            next + " is open", 20, () -> rig.window().frame().getTitle().startsWith(name(next)));
        look(rig);
        rig.until("only its threads run", 10, () -> threads().size() <= withOneJob);
      }
      rig.until("the other file is let go", 10, () -> open(mill) == 0);
      assertThat(left(mill)).contains("vigil.shown=kept", "page=vigil");
      rig.page("vigil");
    }
    await(before);
    assertThat(open(mill) + open(brook)).as("open files").isZero();
    assertThat(left(brook)).contains("vigil.shown=kept", "page=vigil");
  }

  /** A thread that was told to end takes a moment; one of a test before this may end, too. */
  private static void await(Set<Thread> before) {
    Pause.pause(
        new Condition("no thread is left") {
          @Override
          public boolean test() {
            return before.containsAll(threads());
          }

          @Override
          protected String descriptionAddendum() {
            return ": " + threads();
          }
        },
        10_000);
  }

  private static String name(Path job) {
    return String.valueOf(job.getFileName());
  }

  /** At the pages that have threads of their own, the vigil's last. */
  private static void look(DeskRig rig) {
    rig.page("report");
    rig.until("pages", 30, () -> rig.state("report").equals("not saved"));
    rig.page("vigil");
    rig.click("vigil.toKept");
    StripChart chart = rig.find("vigil.kept.chart", StripChart.class);
    rig.until("the chart", 30, () -> chart.picture() != null);
  }

  private Path job(String name) throws Exception {
    Path file = directory.resolve(name);
    try (JobFile job = JobFile.open(file)) {
      InventedVigils.continuity(job, file, 1, SEED);
    }
    return file;
  }

  private static String left(Path job) throws IOException {
    try (JobReader reader = JobReader.open(job)) {
      return reader.records().left(LeftAs.KEY);
    }
  }

  /** Of this program's own names. */
  private static Set<Thread> threads() {
    return Thread.getAllStackTraces().keySet().stream()
        .filter(thread -> OWN.stream().anyMatch(thread.getName()::startsWith))
        .collect(Collectors.toSet());
  }

  /** How often this process has a file open; 0 where the system does not tell. */
  private static long open(Path job) {
    Path all = Path.of("/proc/self/fd");
    if (!Files.isDirectory(all)) {
      return 0;
    }
    try (Stream<Path> files = Files.list(all)) {
      return files.filter(file -> leadsTo(file, job)).count();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static boolean leadsTo(Path descriptor, Path job) {
    try {
      return Files.readSymbolicLink(descriptor).toString().startsWith(job.toString());
    } catch (IOException e) {
      return false; // closed meanwhile
    }
  }

  @Test
  void aDemosDirectoryGoesWithIt() throws Exception {
    Path folder;
    Path other = job("real.bellwire");
    try (DeskRig rig = DeskRig.demo(directory)) {
      folder = rig.visit().file().getParent();
      assertThat(folder).isDirectory();
      rig.run(w -> w.openJob(other));
      rig.until("the real job", 20, () -> rig.window().frame().getTitle().startsWith("real"));
      rig.until("the demo's is removed", 10, () -> !Files.exists(folder));
    }
    assertThat(other).exists();
  }
}
