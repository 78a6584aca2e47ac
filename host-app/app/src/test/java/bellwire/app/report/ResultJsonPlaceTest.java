package bellwire.app.report;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.survey.Instrument;
import bellwire.app.survey.SurveyOutcome;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Where the result may be written, and what must be left as it is. */
@EnabledOnOs(value = OS.LINUX, disabledReason = "devices and links as Linux has them")
class ResultJsonPlaceTest {
  private static final SurveyOutcome STOPPED =
      new SurveyOutcome(
          new Instrument.Identity("A", "test"),
          null,
          null,
          null,
          List.of(),
          List.of(),
          false,
          null,
          1,
          List.of());

  @TempDir private Path directory;

  @Test
  void aLinkStaysALinkAndItsFileIsReplaced() throws IOException {
    Path file = Files.writeString(directory.resolve("job.json"), "old");
    Path link = Files.createSymbolicLink(directory.resolve("latest.json"), file);
    write(link);
    assertThat(link).isSymbolicLink();
    assertThat(file).content().startsWith("{").endsWith("}\n");
    try (var left = Files.list(directory)) {
      assertThat(left).containsExactlyInAnyOrder(file, link);
    }
  }

  /** Once moved over: with the rights to do so, the device was gone. */
  @Test
  void aDeviceIsWrittenToAndNotReplaced() throws IOException {
    // Through a link in a directory of our own, so that a failure breaks no device.
    Path link = Files.createSymbolicLink(directory.resolve("sink"), Path.of("/dev/null"));
    write(link);
    assertThat(link).isSymbolicLink();
    assertThat(Files.isRegularFile(Path.of("/dev/null"))).isFalse();
    try (var left = Files.list(directory)) {
      assertThat(left).containsExactly(link);
    }
  }

  private static void write(Path file) throws IOException {
    ResultJson.write(file, STOPPED, Map.of(), List.of());
  }
}
