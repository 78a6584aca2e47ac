package bellwire.app.cli;

import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TiePlans;
import bellwire.app.report.Cautions;
import bellwire.app.report.Paragraph;
import bellwire.app.report.TiesJson;
import bellwire.app.survey.TieInstructions;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire ties}: the plan for identifying conductors without a plug. */
@Command(
    name = "ties",
    description =
        "Prints which far ends to join, in two rounds, so that 'bellwire survey --ties' can tell the conductors apart without a plug.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class TiesCommand implements Callable<Integer> {
  @Parameters(paramLabel = "N", description = "Number of conductors, 2 to 64.")
  private int conductors;

  @Option(names = "--all", description = "A plan that puts every conductor in a tie.")
  private boolean all;

  @Option(names = "--json", description = "The plan as JSON.")
  private boolean json;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() throws JsonProcessingException {
    if (conductors < 2 || conductors > TiePlan.MOST_CONDUCTORS) {
      throw wrong("ties takes 2 to " + TiePlan.MOST_CONDUCTORS + " conductors, not " + conductors);
    }
    TiePlan plan = plan();
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(document(plan));
    } else {
      print(plan, out);
    }
    out.flush();
    return ExitCode.ALL_SOUND.status();
  }

  private TiePlan plan() {
    if (conductors == 2) {
      return TiePlans.twoByMetal();
    }
    return all
        ? TiePlans.everyTied(conductors)
            .orElseThrow(
                () ->
                    wrong(
                        "with "
                            + conductors
                            + " conductors one is always left over: leave --all out"))
        : TiePlans.fewest(conductors);
  }

  private static void print(TiePlan plan, PrintWriter out) {
    out.println("BEFORE YOU TOUCH THE CABLE");
    say(out, "  - ", Cautions.lines());
    out.println();
    if (plan.conductors() == 2) {
      out.println("TWO CONDUCTORS");
      say(out, "  ", TieInstructions.two());
      out.println();
    }
    out.println(
        "AT THE FAR END   "
            + plan.conductors()
            + " conductors, "
            + plan.ties()
            + " ties in two rounds");
    List<String> steps = TieInstructions.steps(plan);
    for (int k = 0; k < steps.size(); k++) {
      say(out, String.format("%3d. ", k + 1), List.of(steps.get(k)));
    }
    out.println();
    out.println("MIND THE COPPER");
    say(out, "  - ", TieInstructions.copper());
    List<String> notes = TieInstructions.notes(plan);
    if (!notes.isEmpty()) {
      out.println();
      out.println("GOOD TO KNOW");
      say(out, "  - ", notes);
    }
    out.println();
    say(
        out,
        "",
        List.of(
            "At the near end 'bellwire survey --ties' must be running, and done with the open cable, before the first"
                + " clip goes on. It sees each round by itself."));
  }

  private static void say(PrintWriter out, String lead, List<String> sentences) {
    sentences.forEach(words -> Paragraph.hanging(lead, words).forEach(out::println));
  }

  private static String document(TiePlan plan) throws JsonProcessingException {
    ObjectMapper mapper = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    ObjectNode root = mapper.createObjectNode();
    root.put("bellwire-ties", 1);
    ArrayNode cautions = root.putArray("cautions");
    Cautions.lines().forEach(cautions::add);
    TiesJson.plan(root, plan);
    ArrayNode steps = root.putArray("steps");
    TieInstructions.steps(plan).forEach(steps::add);
    ArrayNode copper = root.putArray("copper");
    TieInstructions.copper().forEach(copper::add);
    return mapper.writeValueAsString(root);
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
