package bellwire.analysis.survey;

import bellwire.analysis.survey.StarPhase.Observation;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a plug phase read.
 *
 * @param connected ports that hang on the plug
 * @param arms resistance from each port's terminal to the plug's common point, contacts included;
 *     empty with fewer than three connected
 * @param budgets of the single readings, by port
 * @param loop with two conductors connected, their sum; otherwise null
 * @param observations all four-terminal readings, those along bridges among them
 * @param guard mask of the ports held at common
 * @param coarseOhms rough resistance of each port to all the others with the plug on
 */
public record StarResult(
    List<Integer> connected,
    Map<Integer, Quantity> arms,
    Map<Integer, Budget> budgets,
    @Nullable Quantity loop,
    List<Observation> observations,
    int guard,
    double[] coarseOhms) {

  /** Evaluates a phase that is over. */
  public static StarResult of(
      BoardModel board, OpenResult open, List<Integer> connected, StarPhase phase) {
    List<Observation> seen = phase.observations();
    if (seen.isEmpty() || seen.get(0).b() == seen.get(0).k()) {
      Quantity loop = seen.isEmpty() ? null : seen.get(0).ohms();
      return new StarResult(
          connected,
          Map.of(),
          Map.of(),
          loop,
          phase.alongBridges(),
          phase.guard(),
          phase.coarseOhms());
    }
    RatioReader reader = new RatioReader(board.noisier(open.noiseFactor()));
    Map<Integer, Budget> budgets = new LinkedHashMap<>();
    for (Observation o : seen) {
      double amps =
          (o.readings().get(1).volts() - o.readings().get(2).volts())
              / 2
              / board.lowReferenceOhms();
      budgets.put(o.a(), reader.budget(o.readings(), o.ohms().value(), amps));
    }
    List<Observation> all = new ArrayList<>(seen);
    all.addAll(phase.alongBridges());
    return new StarResult(
        connected,
        new StarFit(board, open, phase.guard(), seen, phase.landed()).arms(),
        budgets,
        null,
        List.copyOf(all),
        phase.guard(),
        phase.coarseOhms());
  }
}
