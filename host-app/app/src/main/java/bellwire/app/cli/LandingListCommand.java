package bellwire.app.cli;

import bellwire.analysis.findings.Symptom;
import bellwire.app.landing.Described;
import bellwire.yaml.FileException;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code bellwire landing list}: the built-in descriptions and the symptoms. */
@Command(
    name = "list",
    description =
        "Lists the built-in equipment, controls and examples, and the symptoms that 'explain' knows.",
    mixinStandardHelpOptions = true)
final class LandingListCommand implements Callable<Integer> {
  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() throws FileException {
    PrintWriter out = spec.commandLine().getOut();
    out.println("EQUIPMENT");
    for (String name : Described.EQUIPMENT) {
      line(out, name, Described.equipment(name).title());
    }
    out.println("CONTROLS");
    for (String name : Described.CONTROLS) {
      line(out, name, Described.control(name).title());
    }
    out.println("EXAMPLES");
    for (String name : Described.EXAMPLES) {
      line(out, name, Described.example(name).title());
    }
    out.println("SYMPTOMS");
    for (Symptom symptom : Symptom.values()) {
      out.println("  " + symptom.words());
    }
    return ExitCode.ALL_SOUND.ifPrinted(out, spec.commandLine().getErr());
  }

  private static void line(PrintWriter out, String name, String title) {
    out.println("  " + name + " ".repeat(Math.max(2, 34 - name.length())) + title);
  }
}
