package bellwire.app.document;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.Ruling;
import bellwire.app.document.ReportContents.Rehearsal;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Block.Statement;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.document.block.Span.Tone;
import bellwire.app.drawing.TimingDrawing;
import bellwire.app.drawing.TimingModel;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.Findings.Finding;
import bellwire.app.rehearsal.FunctionRules;
import bellwire.app.rehearsal.Rehearsal.Function;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalOutcome.Coverage;
import bellwire.app.rehearsal.Times;
import bellwire.app.report.RehearsalText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Rehearsals: what was found, timing diagrams, functions, rules. */
final class RehearsalPart {
  private static final long AROUND_MICROS = 5_000_000;
  private static final List<Verdict> WORST_FIRST =
      List.of(Verdict.BROKEN, Verdict.UNDECIDED, Verdict.KEPT);

  private final ReportContents contents;
  private final Figures figures;

  RehearsalPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  /** What a rehearsal shows to work; empty where it shows nothing. */
  static Optional<Statement> seen(RehearsalOutcome outcome) {
    List<String> seen =
        outcome.rehearsal().functions().stream()
            .filter(f -> outcome.coverage(f) == Coverage.COVERED)
            .filter(f -> FunctionRules.of(outcome, f, Verdict.BROKEN).isEmpty())
            .map(f -> f.name() + undecided(FunctionRules.of(outcome, f, Verdict.UNDECIDED).size()))
            .toList();
    if (seen.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Statement(
            Mark.MEASURED,
            List.of(
                Span.bold("Control: "),
                Span.of(
                    "seen at its terminals, without a rule broken: "
                        + String.join(", ", seen)
                        + ". In all, rules "
                        + verdicts(outcome)))));
  }

  private static String undecided(int rules) {
    return rules == 0 ? "" : " (" + rules + (rules == 1 ? " rule" : " rules") + " undecided)";
  }

  private static String verdicts(RehearsalOutcome outcome) {
    return "kept "
        + outcome.rulings(Verdict.KEPT).size()
        + ", broken "
        + outcome.rulings(Verdict.BROKEN).size()
        + ", undecided "
        + outcome.rulings(Verdict.UNDECIDED).size();
  }

  /** Why a function was not seen, in the operator's words; empty where nobody said. */
  static String reason(RehearsalOutcome outcome, Function function) {
    return outcome.attempts().stream()
        .filter(a -> function.steps().contains(a.step().name()))
        .filter(a -> a.fate() == Attempt.Fate.SKIPPED || a.fate() == Attempt.Fate.NOT_COME_TO)
        .map(Attempt::reason)
        .filter(r -> !r.isEmpty())
        .findFirst()
        .orElse("");
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>(List.of(new Block.Heading(1, "Rehearsal of the control")));
    if (contents.rehearsals().isEmpty()) {
      out.add(Block.Paragraph.of("The control's calls and rests were not rehearsed."));
    }
    for (Rehearsal rehearsal : contents.rehearsals()) {
      String when = figures.when(rehearsal.row().atUnixMicros());
      rehearsal
          .outcome()
          .ifPresentOrElse(
              outcome -> outcome(out, rehearsal, outcome, when),
              () -> {
                out.add(new Block.Heading(2, "Of " + when));
                out.add(Block.Paragraph.of("It can't be judged again: " + rehearsal.trouble()));
              });
    }
    return out;
  }

  private static void outcome(
      List<Block> out, Rehearsal rehearsal, RehearsalOutcome outcome, String when) {
    out.add(new Block.Heading(2, outcome.rehearsal().title() + ", " + when));
    out.add(
        Block.Paragraph.of(
            outcome.good()
                ? "The control kept every rule, every function was seen, and everything went back"
                    + " to rest."
                : "Rules " + verdicts(outcome) + "."));
    if (!outcome.ended().isEmpty()) {
      out.add(Block.Paragraph.of("It ended early: " + outcome.ended()));
    }
    facts(out, rehearsal, outcome);
    TimingModel whole = TimingModel.of(outcome);
    out.add(
        new Block.Figure(
            new TimingDrawing(whole),
            "All terminals from the first step to the last, with the steps and the rules'"
                + " bounds."));
    findings(out, outcome, whole);
    functions(out, outcome);
    steps(out, outcome);
    rules(out, outcome);
    sampling(out, outcome);
  }

  private static void facts(List<Block> out, Rehearsal rehearsal, RehearsalOutcome outcome) {
    List<Block.Fact> facts = new ArrayList<>();
    facts.add(
        Block.Fact.of(
            "where",
            rehearsal.row().live()
                ? "live, on its wall, the equipment connected"
                : "the control by itself, no equipment connected"));
    outcome.notAtRest().forEach(t -> facts.add(Block.Fact.of("not at rest at the end", t.words())));
    if (!rehearsal.row().options().isEmpty()) {
      facts.add(Block.Fact.of("options", String.join(", ", rehearsal.row().options())));
    }
    outcome.rehearsal().times().values().stream()
        .sorted((a, b) -> a.name().compareTo(b.name()))
        .forEach(
            t ->
                facts.add(
                    Block.Fact.of(
                        "time, " + t.name(), Times.words(t.micros()) + ", " + t.basis())));
    out.add(new Block.Facts(facts));
  }

  private static void findings(List<Block> out, RehearsalOutcome outcome, TimingModel whole) {
    out.add(new Block.Heading(3, "Findings and what to do"));
    if (outcome.findings().isEmpty()) {
      out.add(Block.Paragraph.of("None."));
      return;
    }
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Finding f : outcome.findings()) {
      List<String> said = new ArrayList<>();
      f.rulings().stream()
          .flatMap(r -> r.telling().stream().limit(1).map(o -> occasion(outcome, r, o)))
          .forEach(said::add);
      rows.add(
          List.of(
              List.of(Span.bold(f.says() + " "), Span.of(String.join(" ", said))),
              Span.list(f.remedy())));
    }
    out.add(new Block.Table(List.of("what was seen", "what to do"), rows));
    for (Finding f : outcome.findings()) {
      f.rulings().stream()
          .flatMap(r -> r.telling().stream())
          .filter(o -> o.verdict() == Verdict.BROKEN)
          .findFirst()
          .ifPresent(o -> around(out, outcome, whole, f, o));
    }
  }

  private static void around(
      List<Block> out, RehearsalOutcome outcome, TimingModel whole, Finding f, Occasion o) {
    long margin = Math.max(AROUND_MICROS, (o.latestMicros() - o.earliestMicros()) / 3);
    long from = Math.max(outcome.startMicros(), o.earliestMicros() - margin);
    long to = Math.max(from + 1, Math.min(outcome.endMicros(), o.latestMicros() + margin));
    out.add(
        new Block.Figure(
            new TimingDrawing(whole.part(from, to)),
            f.says()
                + " At "
                + Times.sinceWords(o.earliestMicros() - outcome.startMicros())
                + " from the begin."));
  }

  private static String occasion(RehearsalOutcome outcome, Ruling ruling, Occasion o) {
    String at = Times.sinceWords(o.earliestMicros() - outcome.startMicros());
    var measured = o.measuredMicros();
    var margin = o.marginMicros();
    String figure =
        measured == null || margin == null
            ? ""
            : ": " + RehearsalText.span(measured) + ", " + RehearsalText.room(margin);
    return ruling.rule().says() + " At " + at + figure + ".";
  }

  private static void functions(List<Block> out, RehearsalOutcome outcome) {
    out.add(new Block.Heading(3, "Functions"));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Function function : outcome.rehearsal().functions()) {
      Span how =
          switch (outcome.coverage(function)) {
            case COVERED -> Span.toned("\u2713\u00a0seen", Tone.SOUND);
            case NOT_REACHED ->
                Span.toned("\u2717 gone through, its goal not reached", Tone.FAULTY);
            case NOT_COVERED -> Span.toned("?\u00a0not seen", Tone.UNDECIDED);
          };
      rows.add(
          List.of(
              Span.list(function.name()),
              List.of(how),
              ruled(outcome, function),
              Span.list(reason(outcome, function))));
    }
    out.add(
        new Block.Table(
            List.of("function", "seen", "rules while it was gone through", "why not"), rows));
  }

  private static List<Span> ruled(RehearsalOutcome outcome, Function function) {
    int broken = FunctionRules.of(outcome, function, Verdict.BROKEN).size();
    int undecided = FunctionRules.of(outcome, function, Verdict.UNDECIDED).size();
    List<Span> words = new ArrayList<>();
    if (broken > 0) {
      words.add(Span.toned("\u2717\u00a0" + broken + " broken", Tone.FAULTY));
    }
    if (undecided > 0) {
      words.add(
          Span.toned(
              (broken > 0 ? ", " : "") + "?\u00a0" + undecided + " undecided", Tone.UNDECIDED));
    }
    return words.isEmpty() ? Span.list("none broken") : words;
  }

  private static void steps(List<Block> out, RehearsalOutcome outcome) {
    out.add(new Block.Heading(3, "Steps"));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Attempt a : outcome.attempts()) {
      boolean begun = a.fate() == Attempt.Fate.DONE || a.fate() == Attempt.Fate.SET_ASIDE;
      String note = a.reason() + (a.reason().isEmpty() || a.observed().isEmpty() ? "" : "; ");
      rows.add(
          List.of(
              Span.list(a.step().name()),
              Span.list(fate(a)),
              Span.list(
                  begun
                      ? Times.sinceWords(a.latestMicros() - outcome.startMicros())
                          + " to "
                          + Times.sinceWords(a.endMicros() - outcome.startMicros())
                      : ""),
              Span.list(note + (a.observed().isEmpty() ? "" : "seen or heard: " + a.observed()))));
    }
    out.add(new Block.Table(List.of("step", "what became of it", "from the begin", "note"), rows));
  }

  private static String fate(Attempt a) {
    return switch (a.fate()) {
      case DONE -> a.reached() ? "done" : "done, its goal not reached";
      case SKIPPED -> "skipped";
      case SET_ASIDE -> "repeated, does not count";
      case NOT_COME_TO -> "not come to";
    };
  }

  private static void rules(List<Block> out, RehearsalOutcome outcome) {
    out.add(new Block.Heading(3, "Rules"));
    Map<List<List<Span>>, Integer> alike = new LinkedHashMap<>();
    List<Ruling> worstFirst =
        outcome.rulings().stream()
            .sorted(Comparator.comparingInt(r -> WORST_FIRST.indexOf(r.verdict())))
            .toList();
    for (Ruling r : worstFirst) {
      String figure =
          r.telling().stream()
              .filter(o -> o.measuredMicros() != null && o.marginMicros() != null)
              .findFirst()
              .map(RehearsalPart::figure)
              .orElse("");
      alike.merge(
          List.of(
              Span.list(r.rule().says()),
              List.of(verdict(r.verdict())),
              Span.list(String.valueOf(r.occasions())),
              Span.list(figure)),
          1,
          Integer::sum);
    }
    List<List<List<Span>>> rows = new ArrayList<>();
    alike.forEach(
        (row, times) -> {
          List<List<Span>> shown = new ArrayList<>(row);
          if (times > 1) {
            shown.set(3, List.of(row.get(3).get(0), Span.faint(" " + times + " rules alike")));
          }
          rows.add(shown);
        });
    out.add(
        new Block.Table(
            List.of("rule", "verdict", "put to the test", "nearest to its bound"), rows));
  }

  private static String figure(Occasion o) {
    var measured = o.measuredMicros();
    var margin = o.marginMicros();
    return measured == null || margin == null
        ? ""
        : RehearsalText.span(measured) + ", " + RehearsalText.room(margin);
  }

  private static Span verdict(Verdict verdict) {
    return switch (verdict) {
      case KEPT -> Span.toned("\u2713\u00a0kept", Tone.SOUND);
      case BROKEN -> Span.toned("\u2717\u00a0broken", Tone.FAULTY);
      case UNDECIDED -> Span.toned("?\u00a0undecided", Tone.UNDECIDED);
    };
  }

  private static void sampling(List<Block> out, RehearsalOutcome outcome) {
    StringBuilder words = new StringBuilder();
    words.append(outcome.sampling().samples()).append(" samples");
    outcome
        .mainsHertz()
        .ifPresent(hz -> words.append(String.format(Locale.ROOT, ", supply %.2f Hz", hz)));
    words.append(", the latest tick ").append(Times.words(outcome.sampling().worstLateMicros()));
    words.append(" late, ").append(outcome.bounces()).append(" bounces of contacts, ");
    words.append(outcome.sampling().gaps()).append(" gaps, ");
    words.append(outcome.droppedChanges()).append(" changes dropped.");
    out.add(Block.Paragraph.small(words.toString()));
  }
}
