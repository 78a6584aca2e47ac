package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.JobFile;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code --resume} says of a job's last vigil. */
class VigilStartCommandTest {
  private static final Path BENCH =
      Path.of("../../test-fixtures/simbench/src/main/resources/benches/vigil-clamp-mended.yaml");

  @TempDir private Path directory;
  private final InputStream input = System.in;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private Path job;

  @BeforeEach
  void noInput() {
    System.setIn(new ByteArrayInputStream(new byte[0]));
    job = directory.resolve("house.bellwire");
  }

  @AfterEach
  void giveBackTheInput() {
    System.setIn(input);
  }

  private int vigil(String... words) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    String[] all = new String[words.length + 6];
    String[] where = {"vigil", "start", "--bench", BENCH.toString(), "--job", job.toString()};
    System.arraycopy(where, 0, all, 0, where.length);
    System.arraycopy(words, 0, all, where.length, words.length);
    return BellwireMain.commandLine()
        .setOut(new PrintWriter(out))
        .setErr(new PrintWriter(err))
        .execute(all);
  }

  @Test
  void withoutAFileThereIsNothingToGoOnWith() {
    assertThat(vigil("--resume")).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("there is no such file");
    assertThat(Files.exists(job)).isFalse();
  }

  @Test
  void aJobWithoutAVigilSaysSo() throws Exception {
    JobFile.open(job).close();
    assertThat(vigil("--resume")).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("has no vigil to go on with");
  }

  /** A board that has not heard that the file has all of it would refuse another job's. */
  @Test
  void whereAllHaveEndedTheBoardIsToldThatTheyAreStored() {
    assertThat(vigil("continuity", "--ports", "P1-P4", "--for", "1 min"))
        .isLessThanOrEqualTo(ExitCode.FAULT_FOUND.status());
    assertThat(vigil("--resume")).isEqualTo(ExitCode.ALL_SOUND.status());
    assertThat(out.toString()).contains("have ended; the board keeps nothing of them");
    assertThat(err.toString()).isEmpty();
  }
}
