package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** More than two conductors that touch, in cables without scatter, their positions known. */
class BridgedBundleTest {
  private static List<Fault> found(SyntheticCable cable) {
    Diagnosis.Outcome outcome = Diagnosis.of(NominalCable.located(cable));
    Explanation first = outcome.explanations().get(0);
    assertThat(first.explained()).isTrue();
    assertThat(first.probability()).isGreaterThan(0.9999);
    assertThat(first.sameFaults(cable.truth)).as(outcome + "").isTrue();
    assertThat(outcome.positions()).isEmpty();
    return first.faults();
  }

  private static void hasPlace(Fault bridge, double at) {
    assertThat(bridge.place()).isNotNull();
    assertThat(bridge.place().value()).isCloseTo(at, within(0.001));
    assertThat(bridge.ohms()).isNotNull();
    assertThat(bridge.ohms().value()).isCloseTo(1, within(0.001));
  }

  /** Either order of the places on the conductor that both bridges share. */
  @Test
  void aChainOfThreeHasBothPlaces() {
    for (double first : new double[] {0.3, 0.7}) {
      SyntheticCable cable =
          NominalCable.of(5, 5).bridge(0, 1, first, 1).bridge(1, 2, 1 - first, 1);
      List<Fault> faults = found(cable);
      hasPlace(faults.get(0), first);
      hasPlace(faults.get(1), 1 - first);
    }
  }

  /** Ahead of the nearer bridge or beyond the farther one; anywhere there. */
  @Test
  void aJointLiesOutsideBothBridgesOfItsConductor() {
    for (double[] row : new double[][] {{0.1, 0.15}, {0.9, 0.85}}) {
      SyntheticCable cable = NominalCable.of(5, 5).bridge(0, 1, 0.3, 1).bridge(1, 2, 0.7, 1);
      Fault joint = found(cable.joint(1, row[0], 2)).get(2);
      assertThat(joint.place()).isNotNull();
      assertThat(joint.place().value()).isCloseTo(row[1], within(0.002));
      assertThat(joint.place().u()).isCloseTo(0.3 / Math.sqrt(12), within(0.002));
    }
  }

  /** Too much is unknown of five to place their bridges; how large they are is known. */
  @Test
  void ofFiveNoBridgeIsPlaced() {
    SyntheticCable cable = NominalCable.of(7, 7);
    cable.bridge(0, 1, 0.3, 1).bridge(1, 2, 0.7, 1).bridge(2, 3, 0.5, 1).bridge(3, 4, 0.2, 1);
    for (Fault bridge : found(cable)) {
      assertThat(bridge.place()).isNull();
      assertThat(bridge.ohms()).isNotNull();
      assertThat(bridge.ohms().value()).isCloseTo(1, within(0.001));
    }
  }

  /** Four may have one fault more, five may not: their bridges alone are tried. */
  @Test
  void aJointInFiveThatTouchIsNotExplained() {
    SyntheticCable four = NominalCable.of(6, 6);
    four.bridge(0, 1, 0.3, 1).bridge(1, 2, 0.7, 1).bridge(2, 3, 0.5, 1).joint(3, 0.9, 5);
    assertThat(found(four)).hasSize(4);
    SyntheticCable five = NominalCable.of(7, 7);
    five.bridge(0, 1, 0.3, 1).bridge(1, 2, 0.7, 1).bridge(2, 3, 0.5, 1).bridge(3, 4, 0.2, 1);
    Explanation said =
        Diagnosis.of(NominalCable.located(five.joint(4, 0.9, 5))).explanations().get(0);
    assertThat(said.explained()).isFalse();
    assertThat(said.faults()).hasSize(4).allMatch(f -> f.kind() == Fault.Kind.BRIDGE);
  }
}
