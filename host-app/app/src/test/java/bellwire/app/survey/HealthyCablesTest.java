package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.SurveyResult;
import bellwire.app.survey.FaultyCable.Draw;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Healthy cables of 4 to 16 conductors through every layer, resistances drawn within 0.5 % and
 * contacts within 2 to 20 mohm by the simulated bench: how many are said to have a fault. At most
 * two in a thousand may be said to have a joint; {@code -Dbellwire.cables=1000} shows it.
 */
class HealthyCablesTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 60);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 50_001);
  private static final int ALLOWED_IN_THOUSAND = 2;

  @Test
  void healthyCablesHaveNoFaults() throws Exception {
    int joints = 0;
    List<String> others = new ArrayList<>();
    for (int seed = FIRST; seed < FIRST + CABLES; seed++) {
      FaultyCable cable = new FaultyCable(seed, Draw.HEALTHY);
      SurveyOutcome outcome = SimulatedSurvey.run(cable.yaml(), SimulatedSurvey.options()).outcome;
      SurveyResult result = outcome.result();
      assertThat(result).as("%s: %s", cable, outcome.foreign()).isNotNull();
      List<Fault> first = result.explanations().get(0).faults();
      if (first.stream().anyMatch(f -> f.kind() == Fault.Kind.JOINT)) {
        joints++;
        System.out.println("false joint: " + cable + " " + first);
      } else if (!first.isEmpty()) {
        others.add(cable + " " + first);
      }
    }
    System.out.printf(
        "seeds %d to %d: %d healthy cables, %d with a false joint, %d with another false fault%n",
        FIRST, FIRST + CABLES - 1, CABLES, joints, others.size());
    assertThat(others).isEmpty();
    assertThat(joints).isLessThanOrEqualTo(CABLES * ALLOWED_IN_THOUSAND / 1000);
  }
}
