package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How the agent's package starts Java. */
final class PackagedAgent {
  private static final Path START_SCRIPT =
      Path.of("../../device-agent/agent/src/deb/files/bellwire-agent");

  private PackagedAgent() {}

  /** The settings in its start script. */
  static List<String> settings() throws IOException {
    String script = Files.readString(START_SCRIPT).replace("\\\n", " ");
    Matcher words = Pattern.compile("exec java (.*) -jar").matcher(script);
    assertThat(words.find()).isTrue();
    return List.of(words.group(1).trim().split("\\s+"));
  }
}
