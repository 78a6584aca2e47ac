package bellwire.app.cli;

import bellwire.app.bench.BenchNetlist;
import bellwire.app.bench.BenchTransport;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire netlist}. */
@Command(
    name = "netlist",
    description = "Prints a simulated bench's circuit, relays open, as a SPICE netlist.",
    mixinStandardHelpOptions = true)
final class NetlistCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "Bench file.")
  private Path bench = Path.of("");

  @Option(
      names = "--at",
      paramLabel = "SECONDS",
      defaultValue = "0",
      description =
          "Of the bench's time, which decides what is on the far end. Default: ${DEFAULT-VALUE}.")
  private double seconds;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    if (!(seconds >= 0 && seconds <= 86_400)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--at takes 0 to 86400 seconds, not " + seconds);
    }
    try {
      spec.commandLine().getOut().print(BenchNetlist.atRest(bench, seconds));
      spec.commandLine().getOut().flush();
      return ExitCode.ALL_SOUND.status();
    } catch (BenchTransport.BadBench e) {
      spec.commandLine().getErr().println("bellwire: " + e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
  }
}
