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

  /** What gives a program the priority of the package's unit, where this user may take it. */
  static List<String> priority() throws InterruptedException {
    List<String> fifo = List.of("chrt", "-f", "50");
    boolean may = SerialRig.runs("chrt", "-f", "50", "true");
    System.out.println(may ? "the agent has FIFO priority" : "the agent has no FIFO priority");
    return may ? fifo : List.of();
  }

  /** The settings in its start script. */
  static List<String> settings() throws IOException {
    String script = Files.readString(START_SCRIPT).replace("\\\n", " ");
    Matcher words = Pattern.compile("exec java (.*) -jar").matcher(script);
    assertThat(words.find()).isTrue();
    return List.of(words.group(1).trim().split("\\s+"));
  }
}
