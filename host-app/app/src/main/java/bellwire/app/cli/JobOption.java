package bellwire.app.cli;

import bellwire.app.job.Stage;
import bellwire.app.visit.Filing;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Where the outcome is to be filed. */
final class JobOption {
  @Option(
      names = "--job",
      paramLabel = "FILE",
      description = "Puts the outcome and what was measured into this job file too.")
  private @Nullable Path job;

  @Option(
      names = "--as-left",
      description = "With --job: measured after the work. Without it: as found.")
  private boolean asLeft;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec = CommandSpec.create();

  /**
   * @param cable its name in the file; empty for the only one
   */
  Optional<Filing> filing(String cable) {
    if (job == null) {
      if (asLeft || !cable.isEmpty()) {
        throw new CommandLine.ParameterException(
            spec.commandLine(), (asLeft ? "--as-left" : "--cable") + " goes with --job");
      }
      return Optional.empty();
    }
    return Optional.of(new Filing(job, cable, asLeft ? Stage.AS_LEFT : Stage.AS_FOUND));
  }
}
