package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.report.Cautions;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Command;

class BellwireMainTest {

  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private final CommandLine line =
      BellwireMain.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));

  @Command(name = "crash")
  static final class Crash implements Runnable {
    @Override
    public void run() {
      throw new IllegalStateException("ports=18");
    }
  }

  @Test
  void helpEndsWithEveryCaution() {
    assertThat(line.setUsageHelpAutoWidth(false).execute("--help")).isZero();
    String unwrapped = out.toString().replaceAll("\\s+", " ");
    assertThat(Cautions.lines()).isNotEmpty().allSatisfy(c -> assertThat(unwrapped).contains(c));
  }

  @Test
  void versionIsTheBuildsOwn() {
    assertThat(line.execute("--version")).isZero();
    assertThat(out.toString().strip()).matches("bellwire \\d+\\.\\d+\\.\\d+.*");
  }

  @Test
  void noCommandAndAnUnknownCommandAreWrongUsage() {
    assertThat(line.execute()).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(line.execute("surveyy")).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("surveyy");
  }

  @Test
  void aCrashNeverReadsAsAFaultyCable() {
    line.addSubcommand(new Crash()).setErr(new PrintWriter(err));
    assertThat(line.execute("crash")).isEqualTo(ExitCode.PROGRAM_ERROR.status());
    assertThat(err.toString()).contains("no verdict on the cable").contains("ports=18");
  }

  @Test
  void wrongUsageIsSaidWithoutAProgrammersTerms() {
    assertThat(line.execute("survey", "--bench", "x", "--dwell", "long")).isEqualTo(2);
    assertThat(line.execute("survey", "--bench", "x", "--dwel", "3")).isEqualTo(2);
    assertThat(err.toString())
        .contains("'long' is not a number")
        .contains("no such option: --dwel")
        .doesNotContain("double", "index");
  }

  @Test
  void aPlaceThatCannotTakeTheResultIsSaidBeforeTheSurvey() {
    assertThat(line.execute("survey", "--bench", "x", "--json", "/")).isEqualTo(2);
    assertThat(line.execute("survey", "--bench", "x", "--json", "/no/such/x.json")).isEqualTo(2);
    assertThat(err.toString()).contains("is a directory").contains("no such directory");
    assertThat(out.toString()).isEmpty();
  }
}
