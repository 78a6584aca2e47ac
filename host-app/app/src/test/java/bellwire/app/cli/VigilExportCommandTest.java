package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.JobFile;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class VigilExportCommandTest {
  private static final long START_MICROS = 7_000_000_000L;

  @TempDir Path directory;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private final CommandLine line =
      BellwireMain.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
  private Path job;
  private Path into;

  /** Two vigils of three minutes, the second with an opening in its second minute. */
  @BeforeEach
  void fill() throws Exception {
    job = directory.resolve("job.bellwire");
    into = directory.resolve("tables");
    Watched asked =
        new Watched(5, "continuity", 0x7, 0, false, 0, 180_000_000, "A", "", 20, 0, 60, Map.of());
    try (JobFile file = JobFile.open(job)) {
      for (int opened = 0; opened < 2; opened++) {
        VigilStore store = file.startVigil(asked, 1_750_000_000_000_000L, START_MICROS, () -> 0);
        Stream ports = store.addWords("ports", 1000);
        store.appendTicks(ports, START_MICROS, 90_000, 0, 0);
        store.appendTicks(ports, START_MICROS + 90_000_000, 90_000, opened * 4, 0);
        store.close();
      }
    }
  }

  private int export(String... more) {
    String[] words = {"vigil", "export", job.toString(), "--into", into.toString()};
    String[] all = java.util.Arrays.copyOf(words, words.length + more.length);
    System.arraycopy(more, 0, all, words.length, more.length);
    return line.execute(all);
  }

  @Test
  void theLastVigilOrTheOneNamedIsWrittenAndEachFileTold() throws Exception {
    assertThat(export("--format", "csv", "--from", "0:01", "--to", "0:02")).isZero();
    assertThat(Files.readString(into.resolve("samples-ports.csv")).lines().skip(1))
        .containsExactly(
            "2025-06-15T15:07:40.000000Z,7060000000,30000,0,0",
            "2025-06-15T15:08:10.000000Z,7090000000,30000,4,0");
    assertThat(out.toString()).contains("samples-ports.csv: ").contains("vigil.csv: ");
    into = directory.resolve("first");
    assertThat(export("--format", "csv", "--vigil", "1")).isZero();
    assertThat(Files.readString(into.resolve("samples-ports.csv")).lines().skip(1))
        .containsExactly("2025-06-15T15:06:40.000000Z,7000000000,180000,0,0");
  }

  @Test
  void whatIsThereAlreadyIsNamedAndStays() throws Exception {
    Files.createDirectory(into);
    Files.writeString(into.resolve("events.parquet"), "mine");
    assertThat(export("--format", "parquet")).isEqualTo(2);
    assertThat(err.toString())
        .contains("events.parquet: is there already; name another directory, or move it away");
    assertThat(into.resolve("events.parquet")).hasContent("mine");
    assertThat(into.toFile().list()).hasSize(1);
  }

  @Test
  void mistakesAreToldWithTheirRemedyAndMakeNoDirectory() {
    assertThat(export("--format", "csv", "--vigil", "9")).isEqualTo(2);
    assertThat(export("--format", "csv", "--from", "soon")).isEqualTo(2);
    assertThat(export("--format", "csv", "--from", "0:02", "--to", "0:01")).isEqualTo(2);
    assertThat(export("--format", "xls")).isEqualTo(2);
    assertThat(err.toString())
        .contains("has no vigil 9; 'bellwire vigil show --list' names them")
        .contains("--from takes hours and minutes since the start, such as '2:30', not 'soon'")
        .contains("--from must be before --to")
        .contains("xls");
    job = directory.resolve("none.bellwire");
    assertThat(export("--format", "csv")).isEqualTo(2);
    assertThat(err.toString()).contains("no such file; name a job file");
    assertThat(into).doesNotExist();
  }
}
