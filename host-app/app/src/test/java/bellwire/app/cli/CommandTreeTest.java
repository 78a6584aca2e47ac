package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** A start builds only the part of the tree that its words lead to; nobody may notice. */
class CommandTreeTest {
  private record Said(int status, String out, String err) {}

  private static Said of(CommandLine line, List<String> words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    line.setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
    int status = line.execute(words.toArray(String[]::new));
    return new Said(status, out.toString(), err.toString());
  }

  private static Said asStarted(List<String> words) {
    return of(CommandTree.leadingTo(words.toArray(String[]::new)), words);
  }

  /** Every command's words, from the root. */
  private static void paths(CommandLine line, List<String> to, List<List<String>> all) {
    all.add(to);
    line.getSubcommands()
        .forEach(
            (name, command) -> {
              List<String> path = new ArrayList<>(to);
              path.add(name);
              paths(command, path, all);
            });
  }

  private static List<List<String>> paths() {
    List<List<String>> all = new ArrayList<>();
    paths(CommandTree.whole(), List.of(), all);
    return all;
  }

  @Test
  void everyCommandsHelpAndComplaintIsTheWholeTrees() {
    assertThat(paths()).hasSizeGreaterThan(20);
    for (List<String> path : paths()) {
      for (String last : List.of("--help", "--no-such")) {
        List<String> words = new ArrayList<>(path);
        words.add(last);
        sameAsWhole(words);
      }
    }
    for (String word : List.of("-h", "--version", "-V")) {
      sameAsWhole(List.of(word));
    }
  }

  private static void sameAsWhole(List<String> words) {
    Said said = asStarted(words);
    assertThat(said).as(words.toString()).isEqualTo(of(CommandTree.whole(), words));
    assertThat(said.out + said.err).as(words.toString()).isNotBlank();
  }

  @Test
  void helpTellsOfEveryCommandWhereverItIsAsked() {
    String all = asStarted(List.of("--help")).out;
    assertThat(asStarted(List.of("help")).out).isEqualTo(all);
    CommandTree.whole()
        .getSubcommands()
        .keySet()
        .forEach(name -> assertThat(all).containsPattern("(?m)^  " + name + " +[A-Z]"));
    for (String words : List.of("help survey", "help vigil start", "--help survey", "-h -h")) {
      List<String> typed = List.of(words.split(" "));
      assertThat(asStarted(typed)).as(words).isEqualTo(of(CommandTree.whole(), typed));
    }
  }

  @Test
  void noWordsAndWrongOnesAreWrongUsage() {
    for (String words : List.of("", "surveyy", "SURVEY", "vigil", "vigil shwo", "landing survey")) {
      List<String> typed = words.isEmpty() ? List.of() : List.of(words.split(" "));
      Said said = asStarted(typed);
      assertThat(said).as(typed.toString()).isEqualTo(of(CommandTree.whole(), typed));
      assertThat(said.status).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    }
  }

  @Test
  void oneCommandIsBuiltAlone() {
    assertThat(CommandTree.leadingTo("survey", "--help").getSubcommands().keySet())
        .containsExactly("survey");
    assertThat(CommandTree.leadingTo("--version").getSubcommands()).isEmpty();
  }
}
