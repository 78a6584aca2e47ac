package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Where no circuit explains the readings of a bridged pair, nothing is forced on them. */
class ReadingsNothingExplainsTest {
  private static SyntheticCable cable() {
    return NominalCable.of(5, 6).bridge(0, 1, 0.5, 1);
  }

  private static Ratio off(Ratio r, double more) {
    return new Ratio(r.stage(), r.a(), r.b(), r.p(), r.q(), r.held(), r.ohms() + more, r.u());
  }

  /** The last reading of the pair twice, that far apart and right in the middle. */
  private static Evidence contradicted(SyntheticCable cable, double sigmas) {
    return NominalCable.with(
        cable.evidence(),
        ratios -> {
          List<Ratio> more = new ArrayList<>(ratios);
          Ratio last = ratios.get(ratios.size() - 1);
          more.set(ratios.size() - 1, off(last, -sigmas / 2 * last.u()));
          more.add(off(last, sigmas / 2 * last.u()));
          return more;
        });
  }

  /**
   * The same reading twice, d apart: chi-squared d²/(2 u²), whatever circuit. K readings have K ±
   * √(2 K); beyond six of these nothing is explained.
   */
  @Test
  void readingsThatContradictEachOtherAreExplainedUpToSixStandardDeviations() {
    long readings = cable().evidence().ratios().stream().filter(r -> r.p() < 2).count() + 1;
    double limit = Math.sqrt(2 * (readings + 6 * Math.sqrt(2.0 * readings)));
    Diagnosis.Outcome near = Diagnosis.of(contradicted(cable(), 0.99 * limit));
    assertThat(near.explanations().get(0).explained()).isTrue();
    assertThat(near.explanations().get(0).sameFaults(cable().truth)).isTrue();
    Diagnosis.Outcome beyond = Diagnosis.of(contradicted(cable(), 1.01 * limit));
    assertThat(beyond.explanations()).hasSize(1);
    assertThat(beyond.explanations().get(0).explained()).isFalse();
    assertThat(beyond.explanations().get(0).probability()).isEqualTo(1);
  }

  /** What is said then is what was seen: the path between the two, a tenth uncertain. */
  @Test
  void whatWasSeenIsSaidAndNoPosition() {
    Evidence evidence = contradicted(cable(), 1000);
    double between = 1 / evidence.background()[0][1];
    Diagnosis.Outcome outcome = Diagnosis.of(evidence);
    assertThat(outcome.positions()).isEmpty();
    assertThat(outcome.explanations()).hasSize(1);
    assertThat(outcome.explanations().get(0).explained()).isFalse();
    Fault bridge = outcome.explanations().get(0).faults().get(0);
    assertThat(bridge.place()).isNull();
    assertThat(bridge.ohms()).isNotNull();
    assertThat(bridge.ohms().value()).isCloseTo(between, within(1e-6));
    assertThat(bridge.ohms().u()).isCloseTo(0.1 * between, within(1e-6));
  }

  /** A conductor that hangs on no plug is broken in every supposition, the last one too. */
  @Test
  void aBreakThatIsCertainStays() {
    Quantity place = new Quantity(0.8, 0.01, "of the run");
    for (double sigmas : new double[] {0, 1e4}) {
      SyntheticCable cable = NominalCable.of(4, 5);
      cable.bridge(0, cable.metal, 0.5, 1).broken(0, 0.8);
      Evidence seen = cable.evidence();
      Ratio first = seen.ratios().get(0);
      assertThat(first.p()).isZero();
      List<Ratio> twice = List.of(first, off(first, sigmas * first.u()));
      Evidence evidence =
          new Evidence(
              seen.setting(),
              seen.stages(),
              twice,
              seen.background(),
              seen.groups(),
              List.of(),
              seen.resistances(),
              Map.of(),
              seen.broken(),
              Map.of(0, place),
              Map.of(),
              seen.positions(),
              seen.doubtful());
      Explanation said = Diagnosis.of(evidence).explanations().get(0);
      assertThat(said.explained()).isEqualTo(sigmas == 0);
      assertThat(said.sameFaults(cable.truth)).as(said + "").isTrue();
      Quantity at = said.faults().get(1).place();
      assertThat(at).isNotNull();
      assertThat(at.value()).isCloseTo(0.8, within(1e-9));
      assertThat(at.u()).isCloseTo(0.01, within(1e-9));
    }
  }

  /**
   * Two readings of 1 ohm and more uncertain: 10⁻⁶ and a thousandth of their density against the
   * bridge's 0.02 of 6 ports and the evidence of its fit.
   */
  @Test
  void noExplanationWeighsByItsPriorAndTheReadingsWidth() {
    Evidence evidence = twoReadings();
    List<Weighed> said = new GroupFaults(evidence, evidence.groups().get(0)).explain();
    Weighed bridge = said.get(0);
    Weighed unexplained = said.stream().filter(w -> !w.explained()).findFirst().orElseThrow();
    List<Ratio> ratios = evidence.ratios();
    Surroundings surroundings =
        new Surroundings(
            evidence.setting(), evidence.stages(), new double[6][6], List.of(0, 1), ratios);
    Supposition bridged = Supposition.bridges(List.of(new Pair(0, 1))).at(evidence.positions());
    GroupFit fit = GroupFit.of(new GroupModel(surroundings, ratios, bridged), ratios);
    assertThat(fit).isNotNull();
    double explained = Math.log(0.02 / 6) + fit.logEvidence();
    double none = Math.log(1e-6) + 2 * Math.log(1.5 * Math.sqrt(2 * Math.PI) / 1000);
    assertThat(bridge.faults()).hasSize(1);
    assertThat(unexplained.logWeight() - bridge.logWeight())
        .isCloseTo(none - explained, within(1e-3));
    assertThat(unexplained.readings()).isEqualTo(2);
  }

  private static Evidence twoReadings() {
    return NominalCable.with(
        NominalCable.blurred(NominalCable.located(cable()), 1.5),
        ratios -> ratios.stream().filter(r -> r.p() == 0).limit(2).toList());
  }
}
