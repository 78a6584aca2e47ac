package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.app.survey.RandomCable.Fault;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Several hundred cables through every layer: which conductor is which, and nothing ever wrong. */
class IdentificationTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 80);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 1);

  private static final class Tally {
    int cables;
    int conductors;
    int identified;
    int undecided;
    final List<String> wrong = new ArrayList<>();
  }

  @Test
  void noConductorIsEverPlacedWrongly() throws Exception {
    Map<Fault, Tally> tallies = new EnumMap<>(Fault.class);
    for (int seed = FIRST; seed < FIRST + CABLES; seed++) {
      Fault fault = Fault.values()[seed % Fault.values().length];
      RandomCable cable = new RandomCable(seed, fault);
      SimulatedSurvey survey = SimulatedSurvey.run(cable.yaml(30, 60), SimulatedSurvey.options());
      SurveyResult result = survey.outcome.result();
      assertThat(result)
          .as("%s: %s %s", cable, survey.outcome.foreign(), survey.outcome)
          .isNotNull();
      count(tallies.computeIfAbsent(fault, f -> new Tally()), cable, survey, result);
    }
    System.out.println("seeds from " + FIRST);
    System.out.println("fault      cables  conductors  identified  undecided  wrong");
    tallies.forEach(
        (fault, t) ->
            System.out.printf(
                "%-10s %6d %11d %11d %10d %6d%n",
                fault, t.cables, t.conductors, t.identified, t.undecided, t.wrong.size()));
    assertThat(tallies.values()).allSatisfy(t -> assertThat(t.wrong).isEmpty());
    assertThat(tallies.get(Fault.NONE).undecided).isZero();
    assertThat(tallies.get(Fault.JOINT).undecided).isZero();
  }

  private static void count(
      Tally tally, RandomCable cable, SimulatedSurvey survey, SurveyResult result) {
    if (cable.conductors < 3) {
      result.conductors().stream()
          .filter(c -> c.position() != 0)
          .forEach(c -> tally.wrong.add(cable + " placed " + c));
      return;
    }
    tally.cables++;
    for (var wire : survey.truth.wires()) {
      tally.conductors++;
      ConductorResult said =
          result.conductors().stream()
              .filter(c -> c.port() == wire.port())
              .findFirst()
              .orElse(null);
      if (said == null || said.position() == 0) {
        tally.undecided++;
        if (cable.fault == Fault.NONE || cable.fault == Fault.JOINT) {
          System.out.println("undecided: " + cable + " " + Ports.name(wire.port()) + " " + said);
        }
      } else if (said.position() == wire.far()) {
        tally.identified++;
      } else {
        tally.wrong.add(cable + " " + said + " truth=" + wire);
      }
      if (said != null && wire.open() && said.standing() == Standing.SOUND) {
        tally.wrong.add(cable + " broken conductor called sound: " + said);
      }
    }
  }
}
