package bellwire.app.report;

import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.RuleFormula;
import bellwire.analysis.rules.Ruling;
import bellwire.analysis.rules.Span;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.Findings;
import bellwire.app.rehearsal.FunctionRules;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.TimeBound;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A rehearsal's outcome as JSON, version 1; docs/rehearsal-files.md describes it. Times are seconds
 * of the device since the rehearsal began, as pairs where they are known to lie between two.
 */
public final class RehearsalJson {
  public static final int VERSION = 1;

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final RehearsalOutcome outcome;
  private final ObjectNode root = MAPPER.createObjectNode();

  private RehearsalJson(RehearsalOutcome outcome) {
    this.outcome = outcome;
  }

  /** Writes the document whole or not at all. */
  public static void write(
      Path file, RehearsalOutcome outcome, Set<String> options, boolean live, List<String> cautions)
      throws IOException {
    WholeFile.write(file, text(outcome, options, live, cautions));
  }

  /** The document as text, ending in a newline. */
  public static String text(
      RehearsalOutcome outcome, Set<String> options, boolean live, List<String> cautions)
      throws IOException {
    RehearsalJson json = new RehearsalJson(outcome);
    json.head(options, live, cautions);
    json.findings();
    json.steps();
    json.functions();
    json.rules();
    json.changes();
    return MAPPER.writeValueAsString(json.root) + "\n";
  }

  private void head(Set<String> options, boolean live, List<String> cautions) {
    root.put("bellwire-rehearsal-outcome", VERSION);
    ArrayNode told = root.putArray("cautions");
    cautions.forEach(told::add);
    Rehearsal rehearsal = outcome.rehearsal();
    root.put("rehearsal", rehearsal.name()).put("title", rehearsal.title());
    root.put("feed", word(rehearsal.feed())).put("live", live);
    ArrayNode chosen = root.putArray("options");
    options.forEach(chosen::add);
    ArrayNode times = root.putArray("times");
    rehearsal.times().values().stream()
        .sorted(Comparator.comparing(TimeBound::name))
        .forEach(
            time ->
                times
                    .addObject()
                    .put("name", time.name())
                    .put("seconds", time.micros() / 1e6)
                    .put("basis", time.basis()));
    root.put("good", outcome.good());
    root.put("ended-early", outcome.ended());
    root.put("seconds", since(outcome.endMicros()));
    root.putObject("board")
        .put("revision", outcome.board().revision())
        .put("agent", outcome.board().program())
        .put("self-check", outcome.board().selfCheck());
    ObjectNode sampling = root.putObject("sampling");
    sampling.put("samples", outcome.sampling().samples());
    sampling.put("lost-frames", outcome.sampling().lostFrames());
    sampling.put("gaps", outcome.sampling().gaps());
    sampling.put("latest-tick-micros", outcome.sampling().worstLateMicros());
    sampling.put("bounces", outcome.bounces());
    sampling.put("dropped-changes", outcome.droppedChanges());
    outcome.mainsHertz().ifPresent(hz -> sampling.put("supply-hertz", hz));
    ArrayNode awake = root.putArray("not-at-rest");
    outcome.notAtRest().forEach(t -> awake.add(t.name()));
  }

  private void findings() {
    ArrayNode findings = root.putArray("findings");
    for (Findings.Finding finding : outcome.findings()) {
      ObjectNode node =
          findings
              .addObject()
              .put("finding", finding.name())
              .put("says", finding.says())
              .put("remedy", finding.remedy());
      ArrayNode rules = node.putArray("rules");
      finding.rulings().forEach(ruling -> rules.add(ruling.rule().name()));
    }
  }

  private void steps() {
    ArrayNode steps = root.putArray("steps");
    for (Attempt attempt : outcome.attempts()) {
      ObjectNode node = steps.addObject();
      node.put("step", attempt.step().name()).put("fate", word(attempt.fate()));
      pair(node, "begun", attempt.earliestMicros(), attempt.latestMicros());
      node.put("end", since(attempt.endMicros())).put("reached", attempt.reached());
      node.put("note", attempt.reason()).put("observed", attempt.observed());
    }
  }

  private void functions() {
    ArrayNode functions = root.putArray("functions");
    for (Rehearsal.Function function : outcome.rehearsal().functions()) {
      functions
          .addObject()
          .put("function", function.name())
          .put("coverage", word(outcome.coverage(function)))
          .put("rules-broken", FunctionRules.of(outcome, function, Verdict.BROKEN).size())
          .put("rules-undecided", FunctionRules.of(outcome, function, Verdict.UNDECIDED).size());
    }
  }

  private void rules() {
    ArrayNode rules = root.putArray("rules");
    for (Ruling ruling : outcome.rulings()) {
      ObjectNode node = rules.addObject();
      node.put("rule", ruling.rule().name()).put("says", ruling.rule().says());
      node.put("formula", RuleFormula.of(ruling.rule()).toString());
      node.put("verdict", word(ruling.verdict())).put("occasions", ruling.occasions());
      ArrayNode telling = node.putArray("telling");
      for (Occasion occasion : ruling.telling()) {
        ObjectNode one = telling.addObject().put("verdict", word(occasion.verdict()));
        pair(one, "at", occasion.earliestMicros(), occasion.latestMicros());
        span(one, "measured", occasion.measuredMicros());
        span(one, "room", occasion.marginMicros());
      }
    }
  }

  private void changes() {
    ArrayNode changes = root.putArray("changes");
    List<Terminal> terminals = outcome.rehearsal().terminals();
    for (LevelChange change : outcome.changes()) {
      ObjectNode node = changes.addObject().put("terminal", terminals.get(change.lead()).name());
      node.put("level", word(change.level()));
      pair(node, "at", change.earliestMicros(), change.latestMicros());
    }
  }

  private void pair(ObjectNode node, String name, long earliest, long latest) {
    node.putArray(name).add(since(earliest)).add(since(latest));
  }

  private static void span(ObjectNode node, String name, @Nullable Span span) {
    if (span != null) {
      ArrayNode pair = node.putArray(name);
      seconds(pair, span.lowMicros());
      seconds(pair, span.highMicros());
    }
  }

  /** An end that is not there is null. */
  private static void seconds(ArrayNode into, long micros) {
    if (Math.abs((double) micros) > Long.MAX_VALUE / 2) {
      into.addNull();
    } else {
      into.add(micros / 1e6);
    }
  }

  private double since(long micros) {
    return (micros - outcome.startMicros()) / 1e6;
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
