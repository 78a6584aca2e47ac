package bellwire.app.cli;

import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire job new}: a file for a visit. */
@Command(
    name = "new",
    description = "Begins the file of a visit. Nothing that is there already is touched.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class JobNewCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "JOB", description = "The file, such as miller.bellwire.")
  private Path job = Path.of("");

  @Option(names = "--customer", paramLabel = "TEXT", description = "For whom.")
  private @Nullable String customer;

  @Option(names = "--place", paramLabel = "TEXT", description = "Where.")
  private @Nullable String place;

  @Option(names = "--technician", paramLabel = "TEXT", description = "By whom.")
  private @Nullable String technician;

  @Option(names = "--system", paramLabel = "TEXT", description = "Which heating or cooling system.")
  private @Nullable String system;

  @Option(names = "--old-control", paramLabel = "TEXT", description = "What hangs on the wall.")
  private @Nullable String oldControl;

  @Option(names = "--new-control", paramLabel = "TEXT", description = "What shall hang there.")
  private @Nullable String newControl;

  @Option(names = "--reason", paramLabel = "TEXT", description = "Why the visit.")
  private @Nullable String reason;

  @Option(
      names = "--mains",
      paramLabel = "50|60",
      description = "What quick readings reject, in hertz.")
  private @Nullable Integer mains;

  @Option(names = "--feet", description = "Lengths in feet, not metres.")
  private boolean feet;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    if (mains != null && mains != 50 && mains != 60) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--mains takes 50 or 60, not " + mains);
    }
    if (Files.exists(job)) {
      return Refusal.of(
          spec,
          job + ": is there already; 'bellwire job show' says what is in it, or name another");
    }
    boolean whole = false;
    boolean opened = false;
    try {
      try (JobFile file = JobFile.open(job)) {
        opened = true;
        JobRecords records = file.records();
        for (Map.Entry<Fact, String> fact : told().entrySet()) {
          records.fact(fact.getKey(), fact.getValue());
        }
        whole = true;
      } finally {
        if (opened && !whole) {
          Files.deleteIfExists(job);
        }
      }
      spec.commandLine().getOut().println(job + ": begun");
      return ExitCode.ALL_SOUND.ifPrinted(spec.commandLine().getOut(), spec.commandLine().getErr());
    } catch (JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, job + ": cannot be written: " + e.getMessage());
    }
  }

  private Map<Fact, String> told() {
    Map<Fact, String> told = new EnumMap<>(Fact.class);
    put(told, Fact.CUSTOMER, customer);
    put(told, Fact.PLACE, place);
    put(told, Fact.TECHNICIAN, technician);
    put(told, Fact.SYSTEM, system);
    put(told, Fact.OLD_CONTROL, oldControl);
    put(told, Fact.NEW_CONTROL, newControl);
    put(told, Fact.REASON, reason);
    put(told, Fact.MAINS_HERTZ, mains == null ? null : mains.toString());
    put(told, Fact.UNITS, feet ? "feet" : null);
    return told;
  }

  private static void put(Map<Fact, String> told, Fact fact, @Nullable String text) {
    if (text != null) {
      told.put(fact, text.strip());
    }
  }
}
