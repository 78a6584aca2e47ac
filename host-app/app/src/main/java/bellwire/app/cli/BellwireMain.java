package bellwire.app.cli;

import bellwire.app.report.ProgramVersion;
import java.io.PrintWriter;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The program's entry: {@code bellwire COMMAND}. */
@Command(
    name = "bellwire",
    description = "Tests the low-voltage control cable of a heating or cooling system.",
    mixinStandardHelpOptions = true,
    versionProvider = BellwireMain.Version.class,
    synopsisSubcommandLabel = "COMMAND")
public final class BellwireMain implements Runnable {

  @Spec private CommandSpec spec = CommandSpec.create();

  BellwireMain() {}

  public static void main(String[] args) {
    System.exit(guarded(CommandTree.leadingTo(args)).execute(args));
  }

  /** So that nothing read from a file or a device steers the terminal; help may be in colour. */
  static CommandLine guarded(CommandLine line) {
    line.setErr(new GuardedWriter(line.getErr()));
    line.setExecutionStrategy(
        parsed -> {
          Integer helped = CommandLine.executeHelpRequest(parsed);
          if (helped != null) {
            return helped;
          }
          line.setOut(new GuardedWriter(line.getOut()));
          return new CommandLine.RunLast().execute(parsed);
        });
    return line;
  }

  /** The whole command tree, ready to execute. */
  public static CommandLine commandLine() {
    return CommandTree.whole();
  }

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "say what to do: bellwire COMMAND");
  }

  static int reportWrongUsage(CommandLine.ParameterException failure, String[] args) {
    CommandLine line = failure.getCommandLine();
    PrintWriter err = line.getErr();
    err.println("bellwire: " + words(failure));
    CommandLine.UnmatchedArgumentException.printSuggestions(failure, err);
    err.println("See: " + line.getCommandSpec().qualifiedName() + " --help");
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  /** The parser's words, without a programmer's terms. */
  private static String words(CommandLine.ParameterException failure) {
    if (failure instanceof CommandLine.UnmatchedArgumentException unmatched) {
      String first = unmatched.getUnmatched().get(0);
      boolean command = failure.getCommandLine().getParent() == null;
      String what = first.startsWith("-") ? "option" : command ? "command" : "argument";
      return "no such " + what + ": " + first;
    }
    return String.valueOf(failure.getMessage())
        .replaceFirst("^Error: ", "")
        .replaceFirst("option option", "option")
        .replaceFirst("KEY=VALUE format", "the form NAME=VALUE")
        .replaceFirst(" is not a double$", " is not a number")
        .replaceFirst(" is not an? (int|long)$", " is not a whole number");
  }

  static int reportProgramError(
      Exception failure, CommandLine line, CommandLine.ParseResult parsed) {
    PrintWriter err = line.getErr();
    err.println("bellwire: a fault of the program itself, no verdict on the cable. Please report:");
    failure.printStackTrace(err);
    return ExitCode.PROGRAM_ERROR.status();
  }

  /** The version that the build wrote into the jar. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"bellwire " + ProgramVersion.text()};
    }
  }
}
