package bellwire.app.cli;

import bellwire.app.report.Cautions;
import bellwire.app.report.Paragraph;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/**
 * The tree of commands, whole or only as far as the words typed lead into it: reading what all
 * commands take is most of a start's work.
 */
final class CommandTree {
  /** In the order of the help. */
  private static final List<Class<?>> COMMANDS =
      List.of(
          DemoCommand.class,
          DeskCommand.class,
          SurveyCommand.class,
          CompareCommand.class,
          TiesCommand.class,
          LandingCommand.class,
          RehearseCommand.class,
          VigilCommand.class,
          JobCommand.class,
          PortsCommand.class,
          NetlistCommand.class,
          CommandLine.HelpCommand.class);

  private CommandTree() {}

  static CommandLine whole() {
    CommandLine root = root();
    COMMANDS.forEach(root::addSubcommand);
    return ready(root);
  }

  /** Does and says for these words what the whole tree does and says for them. */
  static CommandLine leadingTo(String... words) {
    String first = words.length == 0 ? "" : words[0];
    if (words.length == 1) {
      switch (first) {
        case "--help", "-h" -> {
          return ready(namesOnly());
        }
        case "--version", "-V" -> {
          return ready(root());
        }
        default -> {}
      }
    }
    for (Class<?> command : COMMANDS) {
      // Help tells of the other commands.
      if (words(command).name().equals(first) && command != CommandLine.HelpCommand.class) {
        return ready(root().addSubcommand(command));
      }
    }
    return whole();
  }

  private static CommandLine root() {
    return new CommandLine(new BellwireMain());
  }

  /** Commands that have a name and a description, and take nothing. */
  private static CommandLine namesOnly() {
    CommandLine root = root();
    for (Class<?> command : COMMANDS) {
      Command words = words(command);
      CommandSpec spec = CommandSpec.create().name(words.name());
      spec.usageMessage().header(words.header()).description(words.description());
      root.addSubcommand(spec);
    }
    return root;
  }

  private static Command words(Class<?> command) {
    Command words = command.getAnnotation(Command.class);
    if (words == null) {
      throw new IllegalArgumentException("command=" + command);
    }
    return words;
  }

  private static CommandLine ready(CommandLine root) {
    root.getCommandSpec()
        .usageMessage()
        .footer(
            Cautions.lines().stream()
                .flatMap(caution -> Paragraph.hanging("  - ", caution).stream())
                .toArray(String[]::new))
        .footerHeading("%nCautions:%n");
    root.setCaseInsensitiveEnumValuesAllowed(true);
    root.setParameterExceptionHandler(BellwireMain::reportWrongUsage);
    root.setExecutionExceptionHandler(BellwireMain::reportProgramError);
    return root;
  }
}
