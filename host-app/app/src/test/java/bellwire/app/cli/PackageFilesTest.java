package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.report.Cautions;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The manual page and the completion say what the command line takes, all of it. */
class PackageFilesTest {
  @TempDir Path directory;

  @Test
  void theManualHasEveryCommandAndOption() {
    String manual = PackageFiles.manual();
    List<String> missing = new ArrayList<>();
    look(BellwireMain.commandLine(), manual, missing);
    assertThat(missing).isEmpty();
    assertThat(manual).matches("(?s)\\p{ASCII}*");
    String plain = manual.replace("\\-", "-").replace("\\(aq", "'");
    Cautions.lines().forEach(caution -> assertThat(plain).contains(caution));
  }

  /** README.md's table is the other place that says them. */
  @Test
  void theExitCodesAreReadmes() throws IOException {
    String readme = Files.readString(Path.of("../../README.md"));
    for (ExitCode code : ExitCode.values()) {
      assertThat(PackageFiles.manual()).contains("\n" + code.status() + "\n");
      if (code != ExitCode.PROGRAM_ERROR) {
        assertThat(readme).contains("\n| " + code.status() + " | ");
      }
    }
  }

  @Test
  void bashCompletesCommandsAndOptions() throws Exception {
    assertThat(completed("bellwire", "sur")).containsExactly("survey");
    assertThat(completed("bellwire", "vigil", "")).contains("start", "show", "compare", "export");
    assertThat(completed("bellwire", "survey", "--be")).containsExactly("--bench");
    assertThat(completed("bellwire", "job", "export", "--f")).containsExactly("--format");
    assertThat(completed("bellwire", "no-such-word")).isEmpty();
  }

  private static void look(CommandLine line, String manual, List<String> missing) {
    for (CommandLine command : line.getSubcommands().values()) {
      if (command.getCommand() instanceof CommandLine.HelpCommand) {
        continue;
      }
      String heading =
          "\n.SS " + command.getCommandSpec().qualifiedName().replace("-", "\\-") + "\n";
      int from = manual.indexOf(heading);
      if (from < 0) {
        missing.add(heading.strip());
        continue;
      }
      Matcher next = Pattern.compile("\n\\.S[SH] ").matcher(manual);
      String section = manual.substring(from, next.find(from + 1) ? next.start() : manual.length());
      command.getCommandSpec().options().stream()
          .map(option -> option.longestName())
          .filter(name -> !name.equals("--help") && !name.equals("--version"))
          .filter(name -> !section.contains(name.replace("-", "\\-")))
          .forEach(name -> missing.add(heading.strip() + " " + name));
      look(command, manual, missing);
    }
  }

  /** What bash offers for the last of these words. */
  private List<String> completed(String... words) throws Exception {
    Path script = Files.writeString(directory.resolve("bellwire"), PackageFiles.completion());
    String line = String.join(" ", words);
    String typed =
        // Outside of a completion, bash has no options to set for one.
        "compopt() { :; }; . \"$1\"; COMP_LINE=\"$2\"; COMP_POINT=${#2}; shift 2; COMP_WORDS=(\"$@\");"
            + " COMP_CWORD=$(($# - 1)); _complete_bellwire;"
            + " for word in \"${COMPREPLY[@]}\"; do echo \"$word\"; done";
    List<String> command =
        new ArrayList<>(List.of("bash", "-c", typed, "bash", script.toString(), line));
    command.addAll(List.of(words));
    Process bash = new ProcessBuilder(command).redirectErrorStream(true).start();
    String answer = new String(bash.getInputStream().readAllBytes());
    assertThat(bash.waitFor(20, TimeUnit.SECONDS)).isTrue();
    return answer.lines().map(String::strip).distinct().toList();
  }
}
