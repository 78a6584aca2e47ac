package bellwire.app.cli;

import bellwire.app.vigil.StoredVigil.Part;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which vigil of a job file is meant, and what part of it. */
final class VigilChoice {
  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  Path job = Path.of("");

  @Option(
      names = "--vigil",
      paramLabel = "N",
      description = "Its number in the file; the last one where not given.")
  @Nullable Long vigil;

  @Option(
      names = "--from",
      paramLabel = "H:MM",
      description = "Only from this time since its start on, such as '2:30' or '2:30:15'.")
  private @Nullable String from;

  @Option(
      names = "--to",
      paramLabel = "H:MM",
      description = "Only up to this time since its start.")
  private @Nullable String to;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec = CommandSpec.create();

  /** Of its time since its start; to the end of time where no end was named. */
  Part part() {
    long begin = from == null ? 0 : since("--from", from);
    long end = to == null ? Long.MAX_VALUE : since("--to", to);
    if (begin >= end) {
      throw new CommandLine.ParameterException(spec.commandLine(), "--from must be before --to");
    }
    return new Part(begin, end);
  }

  private long since(String option, String typed) {
    return VigilSince.parse(typed)
        .orElseThrow(
            () ->
                new CommandLine.ParameterException(
                    spec.commandLine(),
                    option
                        + " takes hours and minutes since the start, such as '2:30', not '"
                        + typed
                        + "'"));
  }
}
