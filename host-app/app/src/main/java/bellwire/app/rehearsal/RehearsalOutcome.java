package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.logic.Verdict;
import bellwire.analysis.rules.Ruling;
import bellwire.app.rehearsal.Attempt.Fate;
import bellwire.app.survey.BoardSaid;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a rehearsal showed.
 *
 * @param attempts in the order done; steps not come to last
 * @param atEnd levels of the terminals when the last step was over
 * @param changes of levels, bounces taken out, device time
 * @param droppedChanges that were too many to keep; where there are any, nothing is certain
 * @param board what the board said of itself
 * @param bounces changes that were taken for bounces
 * @param trouble with the board or the link that broke it off; empty where there was none
 * @param ended why it ended before its last step; empty when it did not
 */
public record RehearsalOutcome(
    Rehearsal rehearsal,
    List<Attempt> attempts,
    List<Ruling> rulings,
    List<Findings.Finding> findings,
    List<Level> atEnd,
    List<LevelChange> changes,
    long droppedChanges,
    long startMicros,
    long endMicros,
    OptionalDouble mainsHertz,
    BoardSaid board,
    CallSource.Sampling sampling,
    long bounces,
    String ended,
    String trouble) {

  /** How far a function was seen. */
  public enum Coverage {
    COVERED,
    /** A step was done, and did not come to its goal. */
    NOT_REACHED,
    NOT_COVERED
  }

  /** How far the steps of a function were seen in attempts that count. */
  public Coverage coverage(Rehearsal.Function function) {
    Coverage coverage = Coverage.COVERED;
    for (String step : function.steps()) {
      List<Attempt> done =
          attempts.stream()
              .filter(a -> a.step().name().equals(step) && a.fate() == Fate.DONE)
              .toList();
      if (done.isEmpty()) {
        return Coverage.NOT_COVERED;
      } else if (!done.get(done.size() - 1).reached()) {
        coverage = Coverage.NOT_REACHED;
      }
    }
    return coverage;
  }

  /** Terminals that were not seen to return to rest at the end. */
  public List<Terminal> notAtRest() {
    Deed.Mode mode = rehearsal.steps().get(rehearsal.steps().size() - 1).mode();
    return rehearsal.terminals().stream()
        .filter(t -> !t.mayStay().contains(mode))
        .filter(t -> !t.released(atEnd.get(rehearsal.terminals().indexOf(t))))
        .toList();
  }

  public List<Ruling> rulings(Verdict verdict) {
    return rulings.stream().filter(r -> r.verdict() == verdict).toList();
  }

  /** All rules kept, all functions covered, everything back at rest. */
  public boolean good() {
    return droppedChanges == 0
        && trouble.isEmpty()
        && rulings(Verdict.BROKEN).isEmpty()
        && rulings(Verdict.UNDECIDED).isEmpty()
        && notAtRest().isEmpty()
        && rehearsal.functions().stream().allMatch(f -> coverage(f) == Coverage.COVERED);
  }
}
