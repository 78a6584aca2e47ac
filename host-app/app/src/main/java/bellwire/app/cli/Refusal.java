package bellwire.app.cli;

import bellwire.app.report.WholeFile;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** How a command says that it can't go on as asked. */
final class Refusal {
  private Refusal() {}

  /**
   * For a file that can't be used, or could not be written.
   *
   * @return the status to end with
   */
  static int of(CommandSpec spec, @Nullable String words) {
    PrintWriter err = spec.commandLine().getErr();
    err.println("bellwire: " + words);
    err.flush();
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  /**
   * Asks now whether a file can be written, not after half an hour in a cold house.
   *
   * @param file null where the option was not given
   * @throws CommandLine.ParameterException where it plainly can't
   */
  static void whereNotWritable(CommandSpec spec, String option, @Nullable Path file) {
    Optional<String> obstacle = file == null ? Optional.empty() : WholeFile.obstacle(file);
    if (obstacle.isPresent()) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), option + " '" + file + "': " + obstacle.get());
    }
  }
}
