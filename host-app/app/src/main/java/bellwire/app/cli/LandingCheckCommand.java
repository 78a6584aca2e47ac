package bellwire.app.cli;

import bellwire.analysis.landing.Found;
import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.app.job.JobFileException;
import bellwire.app.landing.LandingFile;
import bellwire.app.report.LandingCautions;
import bellwire.app.report.LandingCheckJson;
import bellwire.app.report.LandingText;
import bellwire.app.report.Paragraph;
import bellwire.app.report.WholeFile;
import bellwire.app.visit.Filing;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire landing check}: what every call really does under a plan. */
@Command(
    name = "check",
    description = "Says what each call of the control really does under a landing plan.",
    mixinStandardHelpOptions = true)
final class LandingCheckCommand implements Callable<Integer> {
  @Mixin private LandingFileArgument source = new LandingFileArgument();

  @Mixin private PlanChoice choice = new PlanChoice();

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the check as JSON too.")
  private @Nullable Path json;

  @Mixin private JobOption job = new JobOption();

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Refusal.whereNotWritable(spec, "--json", json);
    try {
      LandingFile landing = source.read();
      Optional<Filing> filing = job.filing();
      String filed = filing.isPresent() ? source.whole() : "";
      if (filing.isPresent()) {
        filing.get().check();
      }
      Installation installation = choice.installation(source, landing);
      Simulation simulation = new Simulation(installation);
      List<Found> found = LandingCheck.check(installation, simulation);
      out.println(
          (landing.title() + ", " + (choice.asFound ? "as found" : "as planned"))
              .toUpperCase(Locale.ROOT));
      LandingCautions.LINES.forEach(
          caution -> Paragraph.hanging("  - ", caution).forEach(out::println));
      out.println();
      new LandingText(installation, simulation.states(), found).lines().forEach(out::println);
      long faults = found.stream().filter(f -> !f.notice()).count();
      out.println();
      out.println(
          faults == 0
              ? "RESULT  every call does what it should, as far as the files say"
              : "RESULT  "
                  + faults
                  + (faults == 1 ? " finding" : " findings")
                  + ": not ready for power");
      out.flush();
      if (json != null) {
        WholeFile.write(
            json,
            LandingCheckJson.text(
                landing.title(),
                choice.asFound,
                installation,
                simulation.states(),
                found,
                LandingCautions.LINES));
      }
      if (filing.isPresent()) {
        out.println();
        out.println("  landing " + filing.get().landing(filed) + " of " + filing.get().job());
      }
      return (faults == 0 ? ExitCode.ALL_SOUND : ExitCode.FAULT_FOUND)
          .ifPrinted(out, spec.commandLine().getErr());
    } catch (LandingFileArgument.Unusable e) {
      return Refusal.of(spec, e.getMessage());
    } catch (JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, json + ": could not be written whole (" + e.getMessage() + ")");
    }
  }
}
