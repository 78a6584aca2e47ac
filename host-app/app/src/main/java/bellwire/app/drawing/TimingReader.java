package bellwire.app.drawing;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.Pattern;
import bellwire.analysis.rules.Ruling;
import bellwire.analysis.rules.Span;
import bellwire.app.drawing.TimingModel.Bracket;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.StepMark;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.ExpectationRules;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** From a rehearsal's outcome to its timing diagram. */
final class TimingReader {
  private static final int MOST_BROKEN = 12;
  private static final int CLOSEST_KEPT = 5;
  private static final int OCCASIONS = 2;

  private final RehearsalOutcome outcome;
  private final List<Bracket> brackets = new ArrayList<>();

  private TimingReader(RehearsalOutcome outcome) {
    this.outcome = outcome;
  }

  static TimingModel of(RehearsalOutcome outcome) {
    return new TimingReader(outcome).model();
  }

  private TimingModel model() {
    List<Terminal> terminals = outcome.rehearsal().terminals();
    List<Lane> lanes = new ArrayList<>();
    for (int lead = 0; lead < terminals.size(); lead++) {
      lanes.add(TimingModel.lane(terminals.get(lead), lead, outcome.changes()));
    }
    brackets(Verdict.BROKEN);
    brackets(Verdict.UNDECIDED);
    kept();
    return new TimingModel(
        outcome.startMicros(),
        Math.max(outcome.endMicros(), outcome.startMicros() + 1),
        outcome.startMicros(),
        lanes,
        steps(),
        brackets);
  }

  private List<StepMark> steps() {
    return outcome.attempts().stream()
        .filter(a -> a.fate() == Attempt.Fate.DONE || a.fate() == Attempt.Fate.SET_ASIDE)
        .map(
            a ->
                new StepMark(
                    a.step().name(),
                    a.latestMicros(),
                    a.endMicros(),
                    a.fate() == Attempt.Fate.DONE))
        .sorted(Comparator.comparingLong(StepMark::fromMicros))
        .toList();
  }

  private void brackets(Verdict verdict) {
    for (Ruling ruling : outcome.rulings(verdict)) {
      List<Occasion> telling =
          ruling.telling().stream().filter(o -> o.verdict() == verdict).limit(OCCASIONS).toList();
      for (int i = 0; i < telling.size() && brackets.size() < MOST_BROKEN; i++) {
        brackets.add(bracket(ruling, telling.get(i), i));
      }
    }
  }

  /** Those that had the least room to their bounds, as a share of it. */
  private void kept() {
    outcome.rulings(Verdict.KEPT).stream()
        .filter(r -> bound(r.rule().pattern()) > 0)
        .filter(r -> !r.telling().isEmpty() && measured(r.telling().get(0)))
        .sorted(Comparator.comparingDouble(TimingReader::room))
        .limit(CLOSEST_KEPT)
        .forEach(r -> brackets.add(bracket(r, r.telling().get(0), 0)));
  }

  private static boolean measured(Occasion o) {
    Span span = o.measuredMicros();
    return span != null && span.highMicros() != Long.MAX_VALUE;
  }

  private static double room(Ruling ruling) {
    Span margin = ruling.telling().get(0).marginMicros();
    return margin == null
        ? Double.MAX_VALUE
        : (double) margin.lowMicros() / bound(ruling.rule().pattern());
  }

  private Bracket bracket(Ruling ruling, Occasion o, int index) {
    long from = o.earliestMicros();
    Span span = o.measuredMicros();
    long to =
        span == null || span.highMicros() == Long.MAX_VALUE
            ? o.latestMicros()
            : from + span.highMicros();
    long bound = bound(ruling.rule().pattern());
    return new Bracket(
        "rule:" + ruling.rule().name() + (index == 0 ? "" : ":" + (index + 1)),
        lane(ruling),
        from,
        Math.max(from, Math.min(to, outcome.endMicros())),
        bound < 0 ? -1 : from + bound,
        need(ruling.rule().pattern()),
        measuredWords(o),
        standing(o.verdict()),
        ruling.rule().says());
  }

  private static String measuredWords(Occasion o) {
    Span span = o.measuredMicros();
    if (span != null) {
      return Times.measured(span.lowMicros(), span.highMicros());
    }
    return switch (o.verdict()) {
      case KEPT -> "so";
      case BROKEN -> "not so";
      case UNDECIDED -> "can't be told";
    };
  }

  private static Standing standing(Verdict verdict) {
    return switch (verdict) {
      case KEPT -> Standing.SOUND;
      case BROKEN -> Standing.FAULTY;
      case UNDECIDED -> Standing.UNDECIDED;
    };
  }

  /** The first terminal that the rule names, -1 where it names none. */
  private int lane(Ruling ruling) {
    List<Terminal> terminals = outcome.rehearsal().terminals();
    for (String fact : ruling.rule().facts()) {
      for (int lead = 0; lead < terminals.size(); lead++) {
        String name = terminals.get(lead).name();
        if (fact.equals(name) || fact.endsWith(" " + name)) {
          return lead;
        }
      }
    }
    return -1;
  }

  /** In µs; -1 where it has none that means something. */
  private static long bound(Pattern pattern) {
    if (pattern instanceof Pattern.Response p) {
      return p.withinMicros() == null ? -1 : p.withinMicros();
    } else if (pattern instanceof Pattern.Holds p) {
      return p.forMicros() < ExpectationRules.FOR_THE_REST_MICROS ? p.forMicros() : -1;
    } else if (pattern instanceof Pattern.AtLeast p) {
      return p.micros();
    } else if (pattern instanceof Pattern.AtMost p) {
      return p.micros();
    } else if (pattern instanceof Pattern.Recurs p) {
      return p.withinMicros();
    }
    return -1;
  }

  private static String need(Pattern pattern) {
    long bound = bound(pattern);
    String time = bound < 0 ? "" : Times.words(bound);
    if (pattern instanceof Pattern.Response) {
      return bound < 0 ? "in this step" : "within " + time;
    } else if (pattern instanceof Pattern.Holds) {
      return bound < 0 ? "for the rest of the step" : "for at least " + time;
    } else if (pattern instanceof Pattern.AtLeast) {
      return "at least " + time;
    } else if (pattern instanceof Pattern.AtMost) {
      return "at most " + time;
    } else if (pattern instanceof Pattern.Recurs) {
      return "within " + time;
    } else if (pattern instanceof Pattern.Never) {
      return "never";
    } else if (pattern instanceof Pattern.Always) {
      return "always";
    }
    return pattern instanceof Pattern.OnlyAfter ? "only after" : "at some time";
  }
}
