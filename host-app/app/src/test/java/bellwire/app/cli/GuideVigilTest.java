package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the vigils' guide shows is what the commands print, one after the other; a line {@code ...}
 * stands for what the guide leaves out. After a change that moves figures: run the command, and
 * paste.
 */
class GuideVigilTest {
  private static final Path ROOT = Path.of("..", "..");
  private static final Pattern SHOWN =
      Pattern.compile("```\n\\$ bellwire ([^\n]+)\n(.*?)\n```", Pattern.DOTALL);
  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

  @TempDir private Path directory;
  private final InputStream input = System.in;

  @AfterEach
  void giveBackTheInput() {
    System.setIn(input);
  }

  @Test
  void theGuideShowsWhatTheCommandsPrint() throws Exception {
    System.setIn(new ByteArrayInputStream(new byte[0]));
    Matcher shown =
        SHOWN.matcher(Files.readString(ROOT.resolve("docs").resolve("user-guide-vigil.md")));
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
    assertThat(blocks).isEqualTo(4);
    assertThat(directory.resolve("tables").resolve("events.csv")).exists();
  }

  private String printed(String command) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(command);
    while (word.find()) {
      String each = word.group(1) != null ? word.group(1) : word.group(2);
      words.add(
          each.startsWith("test-fixtures")
              ? ROOT.resolve(each).toString()
              : each.equals("house.bellwire") || each.equals("tables")
                  ? directory.resolve(each).toString()
                  : each);
    }
    StringWriter out = new StringWriter();
    BellwireMain.commandLine().setOut(new PrintWriter(out)).execute(words.toArray(String[]::new));
    return out.toString();
  }
}
