package bellwire.app.cli;

import bellwire.analysis.attached.Landing;
import bellwire.analysis.attached.LandingChange;
import bellwire.analysis.attached.LandingComparison;
import bellwire.app.report.LandingJson;
import bellwire.app.report.Paragraph;
import bellwire.app.report.Remedies;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire compare}: two surveys in place, before unlanding and after relanding. */
@Command(
    name = "compare",
    description =
        "Compares a landing before the conductors were lifted with the one after: two files of survey --in-place --json.",
    mixinStandardHelpOptions = true)
final class CompareCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "BEFORE", description = "The survey before unlanding.")
  private Path before = Path.of("");

  @Parameters(index = "1", paramLabel = "AFTER", description = "The survey after relanding.")
  private Path after = Path.of("");

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    List<LandingChange> changes;
    try {
      Landing was = LandingJson.read(before);
      Landing is = LandingJson.read(after);
      changes = new LandingComparison(was, is).changes();
      if (was.arms().isEmpty() || is.arms().isEmpty()) {
        out.println("Not both with the tie plug on: a loose clamp does not show.");
      }
    } catch (IOException e) {
      spec.commandLine().getErr().println("bellwire: " + e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
    if (changes.isEmpty()) {
      out.println("LANDING   as before, in what was measured");
      out.flush();
      return ExitCode.ALL_SOUND.status();
    }
    out.println("LANDING   not as before");
    for (LandingChange change : changes) {
      Paragraph.hanging("  ! ", change.kind().title() + ": " + change.words())
          .forEach(out::println);
    }
    out.println();
    Remedies.lines(changes.stream().map(LandingChange::kind)).forEach(out::println);
    out.flush();
    return ExitCode.FAULT_FOUND.status();
  }
}
