package bellwire.app.cli;

import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.report.JobText;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire job show}: what is in a job file. */
@Command(
    name = "show",
    description = "Says what is in the file of a visit. Also while a program has it open.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class JobShowCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  private Path job = Path.of("");

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    try (JobReader reader = JobReader.open(job)) {
      JobText.lines(reader, ZoneId.systemDefault()).forEach(out::println);
      return ExitCode.ALL_SOUND.ifPrinted(out, spec.commandLine().getErr());
    } catch (JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    }
  }
}
