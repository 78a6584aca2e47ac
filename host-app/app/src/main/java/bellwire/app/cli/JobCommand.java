package bellwire.app.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code bellwire job}: the file of a visit. */
@Command(
    name = "job",
    description = "Begins the file of a visit, says what is in it, writes it for others to read.",
    mixinStandardHelpOptions = true,
    subcommands = {JobNewCommand.class, JobShowCommand.class, JobExportCommand.class},
    synopsisSubcommandLabel = "COMMAND")
final class JobCommand implements Runnable {
  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "say what to do: bellwire job COMMAND");
  }
}
