package bellwire.app.cli;

import bellwire.app.landing.Described;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire landing show}: a built-in description or example. */
@Command(
    name = "show",
    description =
        "Prints a built-in description or example, to be copied and changed, and nothing else.",
    mixinStandardHelpOptions = true)
final class LandingShowCommand implements Callable<Integer> {
  @Parameters(
      index = "0",
      paramLabel = "NAME",
      description = "Of equipment, a control or an example; 'bellwire landing list' names them.")
  private String name = "";

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    if (Stream.of(Described.EQUIPMENT, Described.CONTROLS, Described.EXAMPLES)
        .noneMatch(names -> names.contains(name))) {
      throw new CommandLine.ParameterException(
          spec.commandLine(),
          "nothing built in of that name: "
              + name
              + "; 'bellwire landing list' names what there is");
    }
    spec.commandLine().getOut().print(Described.text(name));
    return ExitCode.ALL_SOUND.ifPrinted(spec.commandLine().getOut(), spec.commandLine().getErr());
  }
}
