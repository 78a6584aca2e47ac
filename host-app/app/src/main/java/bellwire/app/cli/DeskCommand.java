package bellwire.app.cli;

import bellwire.app.desk.DeskMain;
import java.awt.GraphicsEnvironment;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletionException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire desk}: the window. */
@Command(
    name = "desk",
    description =
        "Opens the window that leads through the visit, from the first caution to the report.",
    mixinStandardHelpOptions = true)
final class DeskCommand implements Callable<Integer> {
  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "FILE",
      description = "A job file; made where there is none. Without it: chosen in the window.")
  private @Nullable Path file;

  @Option(
      names = "--demo",
      description = "An invented house on the simulated bench; nothing is connected.")
  private boolean demo;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    if (demo && file != null) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--demo brings a job of its own: leave FILE out");
    }
    if (GraphicsEnvironment.isHeadless()) {
      return Refusal.of(
          spec,
          "no screen here for the window; run it where there is one, or use the other commands,"
              + " which need none");
    }
    try {
      DeskMain.open(file, demo).join();
    } catch (CompletionException e) {
      Throwable cause = e.getCause();
      throw cause instanceof RuntimeException told ? told : e;
    }
    return ExitCode.ALL_SOUND.status();
  }
}
