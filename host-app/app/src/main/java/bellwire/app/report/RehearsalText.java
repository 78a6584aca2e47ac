package bellwire.app.report;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.Pattern;
import bellwire.analysis.rules.Ruling;
import bellwire.analysis.rules.Span;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.ExpectationRules;
import bellwire.app.rehearsal.Findings;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalOutcome.Coverage;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A rehearsal's outcome in plain words, for a terminal. */
public final class RehearsalText {
  private static final int CLOSEST = 5;

  private final RehearsalOutcome outcome;
  private final boolean lanes;
  private final List<String> lines = new ArrayList<>();

  private RehearsalText(RehearsalOutcome outcome, boolean lanes) {
    this.outcome = outcome;
    this.lanes = lanes;
  }

  public static List<String> lines(RehearsalOutcome outcome) {
    return lines(outcome, true);
  }

  /** The same to stand beside a drawn timing diagram, without the lanes made of letters. */
  public static List<String> linesBesideDrawing(RehearsalOutcome outcome) {
    return lines(outcome, false);
  }

  private static List<String> lines(RehearsalOutcome outcome, boolean lanes) {
    RehearsalText text = new RehearsalText(outcome, lanes);
    text.write();
    return text.lines;
  }

  private void write() {
    lines.add("OUTCOME");
    headline();
    findings();
    undecided();
    functions();
    rules();
    sampling();
  }

  private void headline() {
    int broken = outcome.rulings(Verdict.BROKEN).size();
    int undecided = outcome.rulings(Verdict.UNDECIDED).size();
    say(
        "  ",
        outcome.good()
            ? "The control kept every rule, every function was seen, and everything went back to"
                + " rest."
            : "rules kept "
                + outcome.rulings(Verdict.KEPT).size()
                + ", broken "
                + broken
                + ", undecided "
                + undecided);
    if (!outcome.ended().isEmpty()) {
      say("  ", "The rehearsal ended early: " + outcome.ended());
    }
    List<Terminal> awake = outcome.notAtRest();
    if (!awake.isEmpty()) {
      say(
          "  ",
          "NOT AT REST at the end: "
              + String.join(", ", awake.stream().map(Terminal::words).toList()));
    }
  }

  private void findings() {
    if (outcome.findings().isEmpty()) {
      return;
    }
    lines.add("");
    lines.add("FINDINGS");
    for (Findings.Finding finding : outcome.findings()) {
      say("  " + finding.name() + ": ", finding.says());
      if (!finding.remedy().isEmpty()) {
        say("    remedy: ", finding.remedy());
      }
      for (Ruling ruling : finding.rulings()) {
        for (Occasion occasion : broken(ruling)) {
          say("    broken: ", occasion(ruling, occasion));
        }
      }
      if (lanes) {
        lanes(finding);
        lines.add("");
      }
    }
    if (lanes) {
      lines.add("  " + TraceLanes.legend());
    }
  }

  private void lanes(Findings.Finding finding) {
    TraceLanes drawn = new TraceLanes(outcome);
    finding.rulings().stream()
        .flatMap(ruling -> broken(ruling).stream())
        .findFirst()
        .ifPresent(
            occasion -> {
              for (String lane : drawn.around(occasion.earliestMicros(), occasion.latestMicros())) {
                lines.add("      " + lane);
              }
            });
  }

  private static List<Occasion> broken(Ruling ruling) {
    return ruling.telling().stream().filter(o -> o.verdict() == Verdict.BROKEN).limit(2).toList();
  }

  private String occasion(Ruling ruling, Occasion occasion) {
    Span measured = occasion.measuredMicros();
    Span margin = occasion.marginMicros();
    String words = ruling.rule().says() + " At " + clock(occasion.earliestMicros());
    if (measured != null && margin != null && bounded(ruling)) {
      return words + ": " + span(measured) + ", " + room(margin);
    }
    return words
        + (occasion.verdict() == Verdict.BROKEN ? " this was not so." : " this cannot be told.");
  }

  /** Whether it has a bound that means something; 'for the rest of the step' is none. */
  private static boolean bounded(Ruling ruling) {
    return !(ruling.rule().pattern() instanceof Pattern.Holds holds)
        || holds.forMicros() < ExpectationRules.FOR_THE_REST_MICROS;
  }

  private String clock(long micros) {
    return Times.sinceWords(micros - outcome.startMicros());
  }

  /** A measured time with what its uncertainty warrants. */
  public static String span(Span span) {
    return Times.measured(span.lowMicros(), span.highMicros());
  }

  /** How far a time is from its bound. */
  public static String room(Span margin) {
    if (margin.highMicros() < 0) {
      return "past its bound by " + Times.words(-margin.highMicros()) + " at least";
    } else if (margin.lowMicros() > 0) {
      return Times.words(margin.lowMicros()) + " to spare";
    }
    return "too close to its bound to tell";
  }

  private void undecided() {
    List<Ruling> undecided = outcome.rulings(Verdict.UNDECIDED);
    if (undecided.isEmpty()) {
      return;
    }
    lines.add("");
    lines.add("UNDECIDED");
    for (Ruling ruling : undecided) {
      String why =
          ruling.telling().stream()
              .filter(o -> o.verdict() == Verdict.UNDECIDED)
              .findFirst()
              .map(o -> occasion(ruling, o))
              .orElse(ruling.rule().says());
      say("  " + ruling.rule().name() + ": ", why);
    }
  }

  private void functions() {
    lines.add("");
    lines.add("FUNCTIONS");
    for (Rehearsal.Function function : outcome.rehearsal().functions()) {
      Coverage coverage = outcome.coverage(function);
      String words =
          switch (coverage) {
            case COVERED -> "seen";
            case NOT_REACHED -> "gone through, its goal not reached";
            case NOT_COVERED -> "NOT COVERED" + reason(function);
          };
      say("  " + function.name() + ": ", words);
    }
    for (Attempt attempt : outcome.attempts()) {
      boolean done = attempt.fate() == Attempt.Fate.DONE;
      if (done && !attempt.reason().isEmpty()) {
        say("  step " + attempt.step().name() + ": ", attempt.reason());
      }
      if (!attempt.observed().isEmpty()) {
        say("  seen or heard in " + attempt.step().name() + ": ", attempt.observed());
      }
    }
  }

  private String reason(Rehearsal.Function function) {
    return outcome.attempts().stream()
        .filter(a -> function.steps().contains(a.step().name()) && a.fate() != Attempt.Fate.DONE)
        .filter(a -> a.fate() != Attempt.Fate.SET_ASIDE)
        .filter(a -> !a.reason().isEmpty())
        .findFirst()
        .map(a -> ": " + a.reason())
        .orElse("");
  }

  private void rules() {
    lines.add("");
    lines.add("CLOSEST TO THEIR BOUNDS");
    outcome.rulings(Verdict.KEPT).stream()
        .filter(ruling -> nearest(ruling) != null)
        .sorted(Comparator.comparingDouble(RehearsalText::share))
        .limit(CLOSEST)
        .forEach(
            ruling -> {
              Occasion o = nearest(ruling);
              if (o != null && o.measuredMicros() != null && o.marginMicros() != null) {
                say(
                    "  " + ruling.rule().name() + ": ",
                    span(o.measuredMicros()) + ", " + room(o.marginMicros()));
              }
            });
    List<String> idle =
        outcome.rulings(Verdict.KEPT).stream()
            .filter(ruling -> ruling.occasions() == 0)
            // What may last only so long and never happened at all is no gap.
            .filter(ruling -> !(ruling.rule().pattern() instanceof Pattern.AtMost))
            .map(ruling -> ruling.rule().name())
            .filter(
                name -> outcome.rehearsal().rules().stream().anyMatch(r -> r.name().equals(name)))
            .toList();
    if (!idle.isEmpty()) {
      say("  not exercised: ", String.join(", ", idle));
    }
  }

  /** The occasion with the least room, where it was measured to its end. */
  private static @Nullable Occasion nearest(Ruling ruling) {
    for (Occasion occasion : ruling.telling()) {
      Span measured = occasion.measuredMicros();
      if (measured != null
          && occasion.marginMicros() != null
          && measured.highMicros() != Long.MAX_VALUE) {
        return occasion;
      }
    }
    return null;
  }

  /** Room as a share of the bound, as far as the two tell it. */
  private static double share(Ruling ruling) {
    Occasion o = nearest(ruling);
    Span margin = o == null ? null : o.marginMicros();
    Span measured = o == null ? null : o.measuredMicros();
    if (margin == null || measured == null) {
      return Double.MAX_VALUE;
    }
    return margin.lowMicros() / (1.0 + margin.lowMicros() + measured.highMicros());
  }

  private void sampling() {
    lines.add("");
    StringBuilder words = new StringBuilder();
    words.append(outcome.sampling().samples()).append(" samples");
    outcome
        .mainsHertz()
        .ifPresent(hz -> words.append(String.format(Locale.ROOT, ", supply %.2f Hz", hz)));
    words
        .append(", the latest tick ")
        .append(Times.words(outcome.sampling().worstLateMicros()))
        .append(" late, ")
        .append(outcome.bounces())
        .append(" bounces of contacts");
    if (outcome.sampling().gaps() > 0) {
      words
          .append(", ")
          .append(outcome.sampling().gaps())
          .append(" gaps in the samples, in which anything may have happened");
    }
    if (outcome.droppedChanges() > 0) {
      words
          .append(". TOO MANY CHANGES to keep, dropped ")
          .append(outcome.droppedChanges())
          .append(": the verdicts above are those of the first part");
    }
    say("  ", words.append('.').toString());
  }

  private void say(String lead, String words) {
    lines.addAll(Paragraph.hanging(lead, words));
  }
}
