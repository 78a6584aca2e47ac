package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Two conductors that touch, in cables without scatter, with what else may be wrong with them. */
class BridgedPairTest {
  private static final double IDENTIFIED = 1e6;

  /** Of one contact: rectangular from 2 to 20 milliohms. */
  private static final double U_CONTACT = 0.009 / Math.sqrt(3);

  private static SyntheticCable cable() {
    return NominalCable.of(5, 6);
  }

  private static Explanation only(Diagnosis.Outcome outcome) {
    Explanation first = outcome.explanations().get(0);
    assertThat(first.explained()).as(outcome + "").isTrue();
    assertThat(first.probability()).as(outcome + "").isCloseTo(1, within(1e-6));
    return first;
  }

  private static Explanation found(SyntheticCable cable) {
    Explanation first = only(Diagnosis.of(cable.evidence()));
    assertThat(first.sameFaults(cable.truth)).as(first + "").isTrue();
    return first;
  }

  private static void close(Quantity said, double truth) {
    assertThat(said).isNotNull();
    assertThat(said.value()).as(said + "").isCloseTo(truth, within(0.1 * said.u()));
  }

  /**
   * A place is known better than from the two clamps alone, for the plugs' contacts tell too; worse
   * than from two clamps and four contacts that tell nothing else.
   */
  @Test
  void aBridgeHasItsPlaceItsSizeAndBothPositions() {
    for (double[] known : new double[][] {{0.5, 1}, {0.3, 5}, {0.8, 0.3}}) {
      SyntheticCable cable = cable().bridge(0, 1, known[0], known[1]);
      Diagnosis.Outcome outcome = Diagnosis.of(cable.evidence());
      Fault bridge = only(outcome).faults().get(0);
      assertThat(only(outcome).sameFaults(cable.truth)).isTrue();
      close(bridge.place(), known[0]);
      assertThat(bridge.place().u())
          .isBetween(U_CONTACT / 0.8 / Math.sqrt(6), U_CONTACT / 0.8 / Math.sqrt(2));
      close(bridge.ohms(), known[1]);
      assertThat(bridge.ohms().u()).isLessThan(0.001);
      assertThat(outcome.positions()).containsOnlyKeys(0, 1);
      outcome
          .positions()
          .forEach(
              (port, position) -> {
                assertThat(position.position()).isEqualTo(cable.position(port));
                assertThat(position.odds()).isGreaterThan(IDENTIFIED);
              });
    }
  }

  /** Its clip and the clamp are not told from it. */
  @Test
  void aBridgeToMetalIsAsUncertainAsItsClip() {
    SyntheticCable cable = NominalCable.of(4, 5);
    Diagnosis.Outcome outcome = Diagnosis.of(cable.bridge(0, cable.metal, 0.5, 1).evidence());
    Fault bridge = only(outcome).faults().get(0);
    assertThat(only(outcome).sameFaults(cable.truth)).isTrue();
    close(bridge.place(), 0.5);
    close(bridge.ohms(), 1);
    assertThat(bridge.ohms().u()).isCloseTo(U_CONTACT, within(2e-5));
    assertThat(outcome.positions()).containsOnlyKeys(0);
    assertThat(outcome.positions().get(0).position()).isEqualTo(cable.position(0));
  }

  /** Conductor 1 hangs on the plug by what it touches: its own position shows nowhere. */
  @Test
  void aBreakBeyondTheBridgeHidesThePosition() {
    SyntheticCable cable = cable().bridge(0, 1, 0.5, 1).broken(1, 0.7);
    Diagnosis.Outcome outcome = Diagnosis.of(cable.evidence());
    assertThat(only(outcome).sameFaults(cable.truth)).isTrue();
    close(only(outcome).faults().get(0).place(), 0.5);
    assertThat(outcome.positions().get(0).position()).isEqualTo(cable.position(0));
    assertThat(outcome.positions().get(0).odds()).isGreaterThan(IDENTIFIED);
    assertThat(outcome.positions().getOrDefault(1, new Position(0, 0)).odds()).isLessThan(1e-6);
  }

  /** Uniform on its side: the mean and 1/√12 of the stretch. */
  @Test
  void aJointIsAnywhereOnItsSideOfTheBridge() {
    double[][] known = {{0, 0.2, 1, 0.25}, {0, 0.7, 1, 0.75}, {1, 0.1, 3, 0.25}, {1, 0.9, 5, 0.75}};
    for (double[] row : known) {
      SyntheticCable cable = cable().bridge(0, 1, 0.5, 1).joint((int) row[0], row[1], row[2]);
      List<Fault> faults = found(cable).faults();
      close(faults.get(0).place(), 0.5);
      close(faults.get(0).ohms(), 1);
      close(faults.get(1).ohms(), row[2]);
      assertThat(faults.get(1).place().value()).isCloseTo(row[3], within(1e-3));
      assertThat(faults.get(1).place().u()).isCloseTo(0.5 / Math.sqrt(12), within(1e-3));
    }
  }

  /** What touches nothing else is a part of its own. */
  @Test
  void aJointAndABreakElsewhereAreFoundBesideIt() {
    SyntheticCable cable =
        NominalCable.of(8, 9).bridge(0, 1, 0.5, 1).joint(4, 0.5, 2).broken(5, 0.5);
    assertThat(found(cable).faults()).hasSize(3);
  }

  /** Two joints are found where one doesn't do; what else would do is not known then. */
  @Test
  void withTwoFurtherFaultsNoPositionIsSaid() {
    SyntheticCable cable = cable().bridge(0, 1, 0.5, 1).joint(0, 0.2, 1).joint(1, 0.2, 2);
    Diagnosis.Outcome outcome = Diagnosis.of(cable.evidence());
    Explanation said = only(outcome);
    assertThat(said.sameFaults(cable.truth)).as(said + "").isTrue();
    close(said.faults().get(1).ohms(), 1);
    close(said.faults().get(2).ohms(), 2);
    assertThat(outcome.positions()).isEmpty();
  }

  /** The joint is ahead in one and the break beyond in the other; which is which shows nowhere. */
  @Test
  void aJointAndABreakOfTwoThatAreAlikeGoEitherWay() {
    SyntheticCable cable = cable().bridge(0, 1, 0.5, 1).joint(0, 0.2, 1).broken(1, 0.7);
    List<Explanation> said = Diagnosis.of(cable.evidence()).explanations();
    assertThat(said.get(0).probability()).isCloseTo(0.5, within(1e-3));
    assertThat(said.get(1).probability()).isCloseTo(0.5, within(1e-3));
    assertThat(said.subList(0, 2)).anyMatch(e -> e.sameFaults(cable.truth));
  }

  /** A bridge of no resistance leaves it open which of the two hangs where. */
  @Test
  void withoutResistanceThePositionsAreUndecided() {
    Map<Integer, Position> positions =
        Diagnosis.of(cable().bridge(0, 1, 0.999, 1e-4).evidence()).positions();
    positions.forEach((port, position) -> assertThat(position.odds()).isLessThan(IDENTIFIED));
  }

  /** Of 132 assignments more come near than are fitted; one of the others may be as good. */
  @Test
  void whereMorePositionsComeNearThanAreFittedNoneIsSure() {
    Diagnosis.Outcome outcome =
        Diagnosis.of(NominalCable.of(6, 16).bridge(0, 1, 0.5, 1).evidence());
    close(only(outcome).faults().get(0).place(), 0.5);
    assertThat(outcome.positions()).containsOnlyKeys(0, 1);
    outcome
        .positions()
        .values()
        .forEach(said -> assertThat(said.odds()).isCloseTo(1, within(1e-3)));
  }

  /**
   * A joint of 20 ohm beyond the bridge moves the right assignment out of the eight nearest. What
   * the coded plug shows is left out then, and the tie plug finds both faults.
   */
  @Test
  void whereNoAssignmentThatIsFittedExplainsTheReadingsTheTiePlugDoes() {
    SyntheticCable cable = NominalCable.of(6, 15).bridge(0, 1, 0.5, 1).joint(0, 0.8, 20);
    Diagnosis.Outcome outcome = Diagnosis.of(cable.evidence());
    assertThat(only(outcome).sameFaults(cable.truth)).isTrue();
    close(only(outcome).faults().get(0).ohms(), 1);
    close(only(outcome).faults().get(1).ohms(), 20);
    assertThat(outcome.positions()).isEmpty();
  }

  /**
   * What lends it and where is not supposed, so that this explains nothing; but it competes for
   * both conductors, which are alike but for their positions.
   */
  @Test
  void aBreakElsewhereMayLendEitherConductorItsArm() {
    SyntheticCable cable = NominalCable.of(6, 7).bridge(0, 1, 0.5, 1).broken(4, 0.7);
    Diagnosis.Outcome outcome = Diagnosis.of(cable.evidence());
    List<Explanation> said = outcome.explanations();
    assertThat(said.get(0).sameFaults(cable.truth)).isTrue();
    assertThat(said.get(0).explained()).isTrue();
    assertThat(said).anyMatch(e -> !e.explained() && e.probability() > 1e-12);
    double first = outcome.positions().get(0).odds();
    double second = outcome.positions().get(1).odds();
    assertThat(first).isBetween(IDENTIFIED, 1e12);
    assertThat(second).isBetween(first / 10, first * 10);
  }
}
