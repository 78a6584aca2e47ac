package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/**
 * The user guide's picture of the demo is what the demo prints; {@code ...} stands for what the
 * guide leaves out. After a change that moves its figures: {@code host-app/bellwire demo}, and
 * paste.
 */
class GuideDemoTest {
  private static final Path GUIDE = Path.of("..", "..", "docs", "user-guide-survey.md");
  private static final String START = "```\n> interlock: is anything live?";

  @Test
  void theGuideShowsWhatTheDemoPrints() throws Exception {
    StringWriter out = new StringWriter();
    int exit = BellwireMain.commandLine().setOut(new PrintWriter(out)).execute("demo");
    assertThat(exit).isEqualTo(ExitCode.FAULT_FOUND.status());
    String guide = Files.readString(GUIDE);
    int from = guide.indexOf(START);
    assertThat(from).as("no demo output in the guide").isPositive();
    String shown = guide.substring(from + 4, guide.indexOf("\n```", from + 4));
    String printed = out.toString();
    int at = 0;
    for (String part : shown.split("\n  \\.\\.\\.\n")) {
      int found = printed.indexOf(part.strip(), at);
      assertThat(found)
          .as("the demo prints this differently:\n%s\n---\n%s", part, printed)
          .isPositive();
      at = found + part.strip().length();
    }
  }
}
