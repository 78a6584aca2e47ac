package bellwire.app.cli;

import bellwire.analysis.landing.Planner;
import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import bellwire.analysis.loop.LandingPlan;
import bellwire.app.landing.LandingFile;
import bellwire.app.landing.PlannedFile;
import bellwire.app.report.LandingCautions;
import bellwire.app.report.Paragraph;
import bellwire.app.report.PlanJson;
import bellwire.app.report.PlanText;
import bellwire.app.report.WholeFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire landing plan}: the landing with the fewest moves that the check allows. */
@Command(
    name = "plan",
    description =
        "Proposes the landing of the new control with the fewest moved conductors that is free of"
            + " findings.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class LandingPlanCommand implements Callable<Integer> {
  @Mixin private LandingFileArgument source = new LandingFileArgument();

  @Option(
      names = "--write",
      paramLabel = "FILE",
      description = "Writes the landing file again with the proposal under 'as-planned'.")
  private @Nullable Path write;

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the proposal as JSON too.")
  private @Nullable Path json;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Refusal.whereNotWritable(spec, "--write", write);
    Refusal.whereNotWritable(spec, "--json", json);
    try {
      LandingFile landing = source.read();
      LandingPlan found = landing.asFound();
      if (found == null) {
        return Refusal.of(
            spec,
            source.file
                + ": nothing under 'as-found'; write down there what is under which terminal");
      }
      if (found.landed().stream().allMatch(one -> one.near() == null && one.far() == null)) {
        return Refusal.of(
            spec,
            source.file
                + ": nothing is landed under 'as-found'; write down there which conductor was under"
                + " which terminal");
      }
      Replacement replacement =
          new Replacement(
              landing.equipment(),
              landing.control(),
              landing.cable(),
              landing.surveyed().doubtful(),
              found);
      out.println((landing.title() + ", a plan").toUpperCase(Locale.ROOT));
      LandingCautions.LINES.forEach(
          caution -> Paragraph.hanging("  - ", caution).forEach(out::println));
      out.println();
      out.flush();
      Proposal proposal = search(out, replacement);
      if (proposal == null) {
        out.println("Stopped: no proposal.");
        out.flush();
        return ExitCode.INTERRUPTED.status();
      }
      PlanText.lines(replacement, proposal).forEach(out::println);
      LandingPlan plan = proposal.plan();
      if (write != null && plan != null) {
        WholeFile.write(write, PlannedFile.text(source.text(), plan));
        readBack(write, plan);
        out.println();
        out.println(
            "Written to " + write + ": check it with 'bellwire landing check " + write + "'");
      }
      out.flush();
      if (json != null) {
        WholeFile.write(json, PlanJson.text(replacement, proposal, LandingCautions.LINES));
      }
      return (plan == null ? ExitCode.FAULT_FOUND : ExitCode.ALL_SOUND)
          .ifPrinted(out, spec.commandLine().getErr());
    } catch (LandingFileArgument.Unusable e) {
      return Refusal.of(spec, e.getMessage());
    } catch (FileException | IOException e) {
      return Refusal.of(spec, "could not be written whole: " + e.getMessage());
    }
  }

  /** Another directory's file may name others that are not there. */
  private static void readBack(Path written, LandingPlan plan)
      throws LandingFileArgument.Unusable, IOException {
    String trouble = "it holds another plan than the one proposed";
    try {
      if (plan.equals(LandingFile.read(written).asPlanned())) {
        return;
      }
    } catch (FileException | IOException e) {
      trouble = String.valueOf(e.getMessage());
    }
    throw new LandingFileArgument.Unusable(
        written
            + ": written, and can't be read again ("
            + trouble
            + "); write it beside the landing file, from where that names its files");
  }

  private static @Nullable Proposal search(PrintWriter out, Replacement replacement)
      throws LandingFileArgument.Unusable {
    Interrupt interrupt = new Interrupt();
    interrupt.arm();
    TerminalProgress progress = new TerminalProgress(out);
    try {
      return Planner.plan(
          replacement,
          (moves, schemes) -> {
            progress.counting(schemes + " ways tried, none with fewer than " + moves + " moves");
            return !interrupt.pressed();
          });
    } catch (Planner.Stopped e) {
      return null;
    } catch (IllegalArgumentException e) {
      String words = String.valueOf(e.getMessage());
      if (!words.startsWith("jumpers and settings=")) {
        throw e;
      }
      throw new LandingFileArgument.Unusable(
          "too many ways to fit the control's jumpers and to set it; leave out of its file the"
              + " settings that no state's 'closes' names");
    } finally {
      progress.end();
      interrupt.done();
    }
  }
}
