package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * What the landing guide shows is what the commands print; a line {@code ...} stands for what the
 * guide leaves out. After a change that moves figures: run the command, and paste.
 */
class GuideLandingTest {
  private static final Path GUIDE = Path.of("..", "..", "docs", "user-guide-landing.md");
  private static final Pattern SHOWN =
      Pattern.compile("```\n\\$ bellwire ([^\n]+)\n(.*?)\n```", Pattern.DOTALL);
  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

  @Test
  void theGuideShowsWhatTheCommandsPrint() throws Exception {
    Matcher shown = SHOWN.matcher(Files.readString(GUIDE));
    int blocks = 0;
    while (shown.find()) {
      blocks++;
      String printed = printed(shown.group(1));
      int at = 0;
      for (String part : shown.group(2).split("(?m)^ *\\.\\.\\.$")) {
        int found = printed.indexOf(part.strip(), at);
        assertThat(found)
            .as("'%s' prints this differently:\n%s\n---\n%s", shown.group(1), part, printed)
            .isNotNegative();
        at = found + part.strip().length();
      }
    }
    assertThat(blocks).isEqualTo(3);
  }

  private static String printed(String command) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(command);
    while (word.find()) {
      words.add(word.group(1) != null ? word.group(1) : word.group(2));
    }
    StringWriter out = new StringWriter();
    BellwireMain.commandLine().setOut(new PrintWriter(out)).execute(words.toArray(String[]::new));
    return out.toString();
  }
}
