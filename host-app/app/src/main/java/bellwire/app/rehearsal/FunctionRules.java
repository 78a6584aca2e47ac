package bellwire.app.rehearsal;

import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Occasion;
import bellwire.analysis.rules.Ruling;
import java.util.List;

/** How the rules were judged while a function was gone through. */
public final class FunctionRules {
  private FunctionRules() {}

  /**
   * Rules with that verdict, and with an occasion of it in the time of the function's steps: from
   * the begin of a step to that of the next one. A rule with more such occasions than it tells of
   * counts for every function.
   */
  public static List<Ruling> of(
      RehearsalOutcome outcome, Rehearsal.Function function, Verdict verdict) {
    return outcome.rulings(verdict).stream()
        .filter(r -> within(outcome, function, r, verdict))
        .toList();
  }

  private static boolean within(
      RehearsalOutcome outcome, Rehearsal.Function function, Ruling ruling, Verdict verdict) {
    List<Occasion> telling = ruling.telling().stream().filter(o -> o.verdict() == verdict).toList();
    boolean all = telling.size() < ruling.telling().size() || telling.size() == ruling.occasions();
    return !all
        || telling.isEmpty()
        || telling.stream().anyMatch(o -> within(outcome, function, o));
  }

  private static boolean within(
      RehearsalOutcome outcome, Rehearsal.Function function, Occasion occasion) {
    List<Attempt> begun =
        outcome.attempts().stream()
            .filter(a -> a.fate() == Attempt.Fate.DONE || a.fate() == Attempt.Fate.SET_ASIDE)
            .toList();
    for (int i = 0; i < begun.size(); i++) {
      Attempt a = begun.get(i);
      long next = i + 1 < begun.size() ? begun.get(i + 1).earliestMicros() : Long.MAX_VALUE;
      if (function.steps().contains(a.step().name())
          && occasion.latestMicros() >= a.earliestMicros()
          && occasion.earliestMicros() < next) {
        return true;
      }
    }
    return false;
  }
}
