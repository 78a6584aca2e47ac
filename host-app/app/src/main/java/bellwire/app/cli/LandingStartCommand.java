package bellwire.app.cli;

import bellwire.app.landing.Described;
import bellwire.app.landing.LandingTemplate;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire landing start}: a landing file to fill in. */
@Command(
    name = "start",
    description = "Prints a landing file to fill in, and nothing else.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class LandingStartCommand implements Callable<Integer> {
  @Option(
      names = "--equipment",
      paramLabel = "NAME",
      required = true,
      description = "Built-in equipment; 'bellwire landing list' names it.")
  private String equipment = "";

  @Option(
      names = "--control",
      paramLabel = "NAME",
      required = true,
      description = "The built-in control that goes on the wall.")
  private String control = "";

  @Option(
      names = "--old-control",
      paramLabel = "NAME",
      description =
          "The built-in control that hung there before: for a check or an explanation of what was"
              + " found.")
  private @Nullable String oldControl;

  @ArgGroup(multiplicity = "1")
  private Wires wires = new Wires();

  /** What is known of the cable. */
  static final class Wires {
    @Option(
        names = "--survey",
        paramLabel = "FILE",
        description =
            "What 'bellwire survey --json' wrote. The text names it: a bare name is looked for"
                + " beside the landing file.")
    private @Nullable Path survey;

    @Option(
        names = "--conductors",
        paramLabel = "LIST",
        split = ",",
        description = "Without a survey: the conductors' colours, such as red,white,yellow,green.")
    private List<String> conductors = List.of();
  }

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    known("--equipment", equipment, Described.EQUIPMENT);
    known("--control", control, Described.CONTROLS);
    if (oldControl != null) {
      known("--old-control", oldControl, Described.CONTROLS);
    }
    try {
      String text =
          wires.survey != null
              ? LandingTemplate.surveyed(equipment, control, oldControl, named(wires.survey))
              : LandingTemplate.described(equipment, control, oldControl, wires.conductors);
      spec.commandLine().getOut().print(text);
      return ExitCode.ALL_SOUND.ifPrinted(spec.commandLine().getOut(), spec.commandLine().getErr());
    } catch (FileException | IOException e) {
      return Refusal.of(spec, e.getMessage());
    }
  }

  /** So that it is found from wherever the text is put: a bare name only from beside it. */
  private static Path named(Path survey) {
    return survey.getParent() == null ? survey : survey.toAbsolutePath().normalize();
  }

  private void known(String option, String name, List<String> names) {
    if (!names.contains(name)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), option + " " + name + ": use one of " + String.join(", ", names));
    }
  }
}
