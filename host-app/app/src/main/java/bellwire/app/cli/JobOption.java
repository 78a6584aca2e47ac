package bellwire.app.cli;

import bellwire.app.job.Stage;
import bellwire.app.visit.Filing;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Where the outcome is to be filed. */
final class JobOption {
  @Option(
      names = "--job",
      paramLabel = "FILE",
      description = "Puts the outcome and what was measured into this job file too.")
  private @Nullable Path job;

  /** Empty where no job is given. */
  Optional<Filing> filing() {
    return filing("", Stage.AS_FOUND);
  }

  /**
   * @param cable its name in the file; empty for the only one
   */
  Optional<Filing> filing(String cable, Stage stage) {
    return Optional.ofNullable(job).map(file -> new Filing(file, cable, stage));
  }
}
