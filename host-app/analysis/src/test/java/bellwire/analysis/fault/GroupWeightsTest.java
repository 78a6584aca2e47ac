package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * How explanations of a bridged pair are weighed against each other where poor readings leave
 * several, against a search of everything. Theory (33), (34).
 */
class GroupWeightsTest {
  private static SyntheticCable cable(double ohms) {
    return NominalCable.of(5, 6).bridge(0, 1, 0.5, ohms);
  }

  /** Every explanation that doesn't start from a joint which the readings hardly show. */
  private static void agrees(SyntheticCable cable, double u, boolean joints) {
    Evidence evidence = NominalCable.blurred(cable.evidence(), u);
    Diagnosis.Outcome said = Diagnosis.of(evidence);
    ExhaustiveSearch search = new ExhaustiveSearch(evidence);
    int compared = 0;
    for (Explanation each : said.explanations()) {
      Set<String> names = ExhaustiveSearch.names(each.faults());
      double known = search.probability(names);
      if (each.explained() && (joints || !names.toString().contains("joint"))) {
        assertThat(each.probability()).as(names + "").isCloseTo(known, within(0.01 * known));
        compared++;
      }
    }
    assertThat(compared).isGreaterThan(1);
    for (int port : said.positions().keySet()) {
      Position position = said.positions().get(port);
      double known = search.logOdds(port, position.position());
      if (Double.isFinite(known)) {
        assertThat(Math.log(position.odds())).as("port=" + port).isCloseTo(known, within(0.01));
      }
    }
  }

  @Test
  void aJointThatShowsAgainstNone() {
    agrees(cable(1).joint(0, 0.2, 0.1), 0.03, true);
    agrees(cable(20).joint(1, 0.2, 0.1), 0.03, true);
    agrees(cable(20).joint(1, 0.2, 0.1), 3, true);
  }

  @Test
  void theOneOfTwoThatIsBroken() {
    agrees(cable(1).broken(1, 0.7), 1, false);
    agrees(cable(1).broken(1, 0.7), 3, false);
  }

  @Test
  void aBreakAgainstNone() {
    agrees(cable(1), 3, false);
  }

  @Test
  void ofTwoPositionsTheLikelierIsSaid() {
    SyntheticCable cable = cable(1);
    Evidence evidence = NominalCable.blurred(cable.evidence(), 0.3);
    Diagnosis.of(evidence)
        .positions()
        .forEach(
            (port, said) -> {
              assertThat(said.position()).isEqualTo(cable.position(port));
              assertThat(said.odds()).isBetween(1.5, 5.0);
            });
  }

  /** A break of 0.01 that touches in 0.1 of all cases, for either conductor. */
  @Test
  void aLentArmWeighsByItsPriorAndItsFit() {
    SyntheticCable cable = NominalCable.of(6, 7).bridge(0, 1, 0.5, 1).broken(4, 0.7);
    Evidence evidence = cable.evidence();
    Supposition bridged = Supposition.bridges(List.of(new Pair(0, 1)));
    Map<Integer, Integer> both = Map.of(0, cable.position(0), 1, cable.position(1));
    double none = fitted(evidence, bridged.at(both));
    double first = fitted(evidence, bridged.lentTo(0).at(both));
    double second = fitted(evidence, bridged.lentTo(1).at(both));
    double expected = 0.001 * (Math.exp(first - none) + Math.exp(second - none));
    Explanation lent =
        Diagnosis.of(evidence).explanations().stream()
            .filter(e -> !e.explained())
            .findFirst()
            .orElseThrow();
    assertThat(lent.probability()).isCloseTo(expected, within(0.01 * expected));
  }

  private static double fitted(Evidence evidence, Supposition supposed) {
    int ports = evidence.setting().ports();
    List<Ratio> ratios = evidence.ratios().stream().filter(r -> r.p() < 2).toList();
    Surroundings surroundings =
        new Surroundings(
            evidence.setting(), evidence.stages(), new double[ports][ports], List.of(0, 1), ratios);
    GroupFit fit = GroupFit.of(new GroupModel(surroundings, ratios, supposed), ratios);
    assertThat(fit).isNotNull();
    return fit.logEvidence();
  }
}
