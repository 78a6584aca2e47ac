package bellwire.app.cli;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Explainer;
import bellwire.analysis.loop.Installation;
import bellwire.app.landing.LandingFile;
import bellwire.app.report.LandingCautions;
import bellwire.app.report.Paragraph;
import java.io.PrintWriter;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire landing explain}: from symptoms to their cause, question by question. */
@Command(
    name = "explain",
    description =
        "Ranks what explains the symptoms seen, and asks for the next look or measurement that tells"
            + " most.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class LandingExplainCommand implements Callable<Integer> {
  @Mixin private LandingFileArgument source = new LandingFileArgument();

  @Mixin private PlanChoice choice = new PlanChoice();

  @Option(
      names = "--seen",
      paramLabel = "WORDS",
      description =
          "A symptom, such as 'fan always on'. Repeatable; 'bellwire landing list' has them all.")
  private List<String> seen = List.of();

  @Option(
      names = "--not-seen",
      paramLabel = "WORDS",
      description = "A symptom that was looked for and is not there. Repeatable.")
  private List<String> notSeen = List.of();

  @Option(
      names = "--single",
      description = "Only single mistakes, not every two of them together: quicker.")
  private boolean single;

  @Option(names = "--no-questions", description = "Ranks the causes, and asks nothing.")
  private boolean noQuestions;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Set<Symptom> there = symptoms("--seen", seen);
    Set<Symptom> notThere = symptoms("--not-seen", notSeen);
    if (there.isEmpty()) {
      throw wrong("say what is seen: --seen 'fan always on'; 'bellwire landing list' has them all");
    }
    if (there.stream().anyMatch(notThere::contains)) {
      throw wrong("the same symptom is seen and not seen");
    }
    try {
      LandingFile landing = source.read();
      Installation intended = choice.installation(source, landing);
      out.println((landing.title() + ", what explains it").toUpperCase(Locale.ROOT));
      LandingCautions.LINES.forEach(
          caution -> Paragraph.hanging("  - ", caution).forEach(out::println));
      out.println();
      words(out, "seen", there);
      words(out, "not seen", notThere);
      out.flush();
      Explainer explainer = new Explainer(intended);
      Set<Symptom> never = EnumSet.copyOf(there);
      never.removeAll(explainer.possible());
      if (!never.isEmpty()) {
        words(out, "note: no mistake that is tried here shows", never);
      }
      Interrupt interrupt = new Interrupt();
      interrupt.arm();
      try {
        Dialogue dialogue = weigh(out, explainer, there, notThere, interrupt);
        return new ExplainSession(out, dialogue, interrupt)
            .run(!noQuestions)
            .ifPrinted(out, spec.commandLine().getErr());
      } catch (CancellationException e) {
        out.println("Stopped: no explanation.");
        out.flush();
        return ExitCode.INTERRUPTED.status();
      } finally {
        interrupt.done();
      }
    } catch (LandingFileArgument.Unusable e) {
      return Refusal.of(spec, e.getMessage());
    }
  }

  private Dialogue weigh(
      PrintWriter out,
      Explainer explainer,
      Set<Symptom> there,
      Set<Symptom> notThere,
      Interrupt interrupt) {
    TerminalProgress progress = new TerminalProgress(out);
    progress.phase(
        single ? "every single mistake" : "every single mistake, and every two together");
    try {
      return explainer.explain(
          there,
          notThere,
          !single,
          (done, of) -> {
            progress.progress(of == 0 ? 0 : (double) done / of);
            return !interrupt.pressed();
          });
    } finally {
      progress.end();
    }
  }

  private static void words(PrintWriter out, String lead, Set<Symptom> symptoms) {
    if (!symptoms.isEmpty()) {
      Paragraph.hanging(
              "  " + lead + ": ",
              symptoms.stream().map(Symptom::words).collect(Collectors.joining("; ")))
          .forEach(out::println);
    }
  }

  private Set<Symptom> symptoms(String option, List<String> texts) {
    Set<Symptom> found = EnumSet.noneOf(Symptom.class);
    for (String text : texts) {
      Symptom.Match match = Symptom.find(text);
      @Nullable Symptom symptom = match.symptom();
      if (symptom == null) {
        String near =
            match.near().stream().map(s -> "'" + s.words() + "'").collect(Collectors.joining(", "));
        throw wrong(
            option
                + " '"
                + text
                + "': not one of the symptoms known; "
                + (near.isEmpty()
                    ? "'bellwire landing list' has them all"
                    : "did you mean " + near + "?"));
      }
      found.add(symptom);
    }
    return found;
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
