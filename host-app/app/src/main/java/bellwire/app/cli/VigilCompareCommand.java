package bellwire.app.cli;

import bellwire.analysis.vigil.VigilComparison;
import bellwire.app.job.JobFileException;
import bellwire.app.report.Cautions;
import bellwire.app.report.WholeFile;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.ComparisonText;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilJson;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil compare}: is it gone after the repair? */
@Command(
    name = "compare",
    description =
        "Compares a vigil before a repair with one after it: how likely so few are if nothing is"
            + " repaired, and how long to watch to be sure.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class VigilCompareCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  private Path job = Path.of("");

  @Parameters(index = "1", paramLabel = "BEFORE", description = "The earlier vigil's number.")
  private long before;

  @Parameters(index = "2", paramLabel = "AFTER", description = "The later vigil's number.")
  private long after;

  @Option(
      names = "--after-job",
      paramLabel = "FILE",
      description = "The later vigil's job file, where it is another one.")
  private @Nullable Path afterJob;

  @Option(
      names = "--count",
      paramLabel = "WHAT",
      defaultValue = "each",
      description = "Which events count, as in 'vigil show'. Default: ${DEFAULT-VALUE}.")
  private Counting counting = Counting.EACH;

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the comparison as JSON too.")
  private @Nullable Path json;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Refusal.whereNotWritable(spec, "--json", json);
    Path later = afterJob == null ? job : afterJob;
    if (afterJob == null && before == after) {
      throw new CommandLine.ParameterException(
          spec.commandLine(),
          "BEFORE and AFTER are two vigils; 'bellwire vigil show --list' lists those it has");
    }
    try {
      VigilShowCommand.rows(job);
      VigilShowCommand.rows(later);
      StoredVigil was = VigilShowCommand.load(job, before, Part.ALL, counting, out);
      StoredVigil is = VigilShowCommand.load(later, after, Part.ALL, counting, out);
      List<String> obstacles = VigilComparison.obstacles(was.watch(), is.watch());
      if (!obstacles.isEmpty()) {
        return Refusal.of(
            spec,
            "vigils "
                + before
                + " and "
                + after
                + " can't be compared: "
                + String.join("; ", obstacles)
                + ". Watch again as the first time.");
      }
      VigilComparison comparison =
          VigilComparison.of(was.events().orElseThrow(), is.events().orElseThrow());
      ComparisonText.lines(comparison, was).forEach(out::println);
      if (json != null) {
        WholeFile.write(json, VigilJson.text(comparison, was, is, Cautions.lines()));
      }
      boolean none = is.events().orElseThrow().incidents().events() == 0;
      boolean sure =
          comparison.whole().fewer()
              && comparison.conductors().stream().allMatch(VigilComparison.Line::fewer);
      ExitCode code = none && sure ? ExitCode.ALL_SOUND : ExitCode.FAULT_FOUND;
      return code.ifPrinted(out, spec.commandLine().getErr());
    } catch (BadVigil | JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, json + ": cannot be written: " + e.getMessage());
    }
  }
}
