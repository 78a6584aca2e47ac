package bellwire.app.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil}: hours of watching for what comes and goes. */
@Command(
    name = "vigil",
    description = "Watches for hours for what comes and goes, and tells what it saw.",
    mixinStandardHelpOptions = true,
    subcommands = {
      VigilStartCommand.class,
      VigilShowCommand.class,
      VigilCompareCommand.class,
      VigilExportCommand.class,
      VigilEndCommand.class
    },
    synopsisSubcommandLabel = "COMMAND")
final class VigilCommand implements Runnable {
  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "say what to do: bellwire vigil COMMAND");
  }
}
