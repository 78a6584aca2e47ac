package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class GuardedWriterTest {
  private static final String STEERING = "\u001b[2J\u009b31m\u0007\r\u202E";
  private static final String SHOWN = "\\u001b[2J\\u009b31m\\u0007\\u000d\\u202e";

  @TempDir Path directory;

  @Test
  void whatSteersATerminalIsPrintedByItsNumber() {
    StringWriter taken = new StringWriter();
    PrintWriter out = new GuardedWriter(new PrintWriter(taken));
    out.print("a" + STEERING);
    out.println('\u001b');
    out.printf("%s\t%s", "Größe 👍", STEERING);
    out.append("b", 0, 1).write(new char[] {'\u009b', 'x'}, 0, 2);
    out.flush();
    assertThat(taken.toString())
        .isEqualTo(
            "a" + SHOWN + "\\u001b" + System.lineSeparator() + "Größe 👍\t" + SHOWN + "b\\u009bx");
  }

  @Test
  void theProgramsOwnSequencesPassWithAStrangersWordsMadeHarmless() {
    StringWriter taken = new StringWriter();
    PrintWriter out = new GuardedWriter(new PrintWriter(taken));
    new LiveLines(out, false, "xterm", true).show(List.of("red" + STEERING));
    assertThat(taken.toString()).contains("\r\u001b[K").contains("red" + SHOWN);
  }

  /** Through every command at once: each prints by way of the same two writers. */
  @Test
  void aNameInAJobSteersNoTerminal() throws Exception {
    Path job = directory.resolve("a.bellwire");
    assertThat(run("job", "new", job.toString(), "--customer", "x" + STEERING)).contains("a.bell");
    assertThat(run("job", "show", job.toString())).contains("x\\u001b[2J").doesNotContain("\u001b");
    Path bench = directory.resolve("b.yaml");
    Files.writeString(bench, "bellwire-bench: 1\nseed: \"1\\e[2J\"\n");
    assertThat(run("netlist", bench.toString())).contains("\\u001b[2J").doesNotContain("\u001b");
  }

  private static String run(String... arguments) {
    StringWriter taken = new StringWriter();
    CommandLine line = BellwireMain.commandLine();
    line.setOut(new PrintWriter(taken)).setErr(new PrintWriter(taken));
    BellwireMain.guarded(line).execute(arguments);
    return taken.toString();
  }
}
