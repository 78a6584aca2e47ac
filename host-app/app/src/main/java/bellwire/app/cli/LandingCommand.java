package bellwire.app.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code bellwire landing}: which conductor goes where, before power is put back. */
@Command(
    name = "landing",
    description =
        "Checks a landing plan by circuit analysis, proposes one, explains symptoms; nothing is"
            + " measured.",
    mixinStandardHelpOptions = true,
    subcommands = {
      LandingCheckCommand.class,
      LandingPlanCommand.class,
      LandingExplainCommand.class,
      LandingStartCommand.class,
      LandingListCommand.class,
      LandingShowCommand.class
    },
    synopsisSubcommandLabel = "COMMAND")
final class LandingCommand implements Runnable {
  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "say what to do: bellwire landing COMMAND");
  }
}
