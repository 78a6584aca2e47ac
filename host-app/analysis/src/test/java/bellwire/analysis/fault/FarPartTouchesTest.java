package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Conductors whose arm no position explains, beside broken ones of which a far part may touch them
 * and lend them its arm; in cables without scatter.
 */
class FarPartTouchesTest {
  private static SyntheticCable cable() {
    return NominalCable.of(7, 8);
  }

  /** What is beyond the break in 4 touches 0 there. */
  private static SyntheticCable touching() {
    return cable().broken(4, 0.4).bridge(0, 4, 0.8, 1);
  }

  private static List<Explanation> said(SyntheticCable cable, Integer... doubtful) {
    Evidence seen = cable.evidence();
    Set<Integer> doubted = new LinkedHashSet<>(List.of(doubtful));
    Map<Integer, Integer> positions = new HashMap<>(seen.positions());
    doubted.forEach(positions::remove);
    return Diagnosis.of(
            new Evidence(
                seen.setting(),
                seen.stages(),
                seen.ratios(),
                seen.background(),
                seen.groups(),
                seen.leaks(),
                seen.resistances(),
                Map.of(),
                seen.broken(),
                seen.breaks(),
                seen.poor(),
                positions,
                doubted))
        .explanations();
  }

  @Test
  void theFarPartThatTouchesIsFoundWithItsPlace() {
    for (double[] row : new double[][] {{0.6, 0.3}, {0.8, 1}, {0.8, 10}}) {
      SyntheticCable cable = cable().broken(4, 0.4).bridge(0, 4, row[0], row[1]);
      Explanation first = said(cable, 0).get(0);
      assertThat(first.explained()).isTrue();
      assertThat(first.probability()).isGreaterThan(0.999_999);
      assertThat(first.sameFaults(cable.truth)).as(first + "").isTrue();
      Fault bridge = first.faults().get(0);
      assertThat(bridge.place()).isNotNull();
      assertThat(bridge.place().value()).isCloseTo(row[0], within(bridge.place().u()));
      assertThat(bridge.ohms()).isNotNull();
      assertThat(bridge.ohms().value()).isCloseTo(row[1], within(bridge.ohms().u()));
    }
  }

  /** What hangs on the plug there shows, not the number of the conductor. */
  @Test
  void ofTwoBrokenEitherMayTouch() {
    List<Explanation> said = said(touching().broken(5, 0.3), 0);
    assertThat(said.get(0).probability()).isCloseTo(0.5, within(1e-3));
    assertThat(said.get(1).probability()).isCloseTo(0.5, within(1e-3));
    assertThat(said.subList(0, 2))
        .allSatisfy(
            each ->
                assertThat(each.faults())
                    .hasSize(3)
                    .filteredOn(f -> f.kind() == Fault.Kind.OPEN)
                    .hasSize(2))
        .flatExtracting(Explanation::faults)
        .filteredOn(f -> f.kind() == Fault.Kind.BRIDGE)
        .extracting(Fault::others)
        .containsExactlyInAnyOrder(List.of(4), List.of(5));
  }

  /** Whichever is asked first. */
  @Test
  void ofTwoInDoubtTheOneWithAnOddArmIsTouched() {
    for (Integer[] order : new Integer[][] {{0, 1}, {1, 0}}) {
      Explanation first = said(touching(), order).get(0);
      assertThat(first.sameFaults(touching().truth)).as(first + "").isTrue();
      assertThat(first.probability()).isGreaterThan(0.999_999);
    }
  }

  /** One that was doubted in vain: only the break is left, with its place. */
  @Test
  void anArmThatIsAsItShouldBeIsTouchedByNothing() {
    Explanation first = said(cable().broken(4, 0.4), 1).get(0);
    assertThat(first.explained()).isTrue();
    assertThat(first.probability()).isGreaterThan(0.999);
    assertThat(first.faults()).containsExactly(Fault.open(4, null));
  }

  @Test
  void anArmThatIsTooHighHasAJoint() {
    SyntheticCable cable = cable().broken(4, 0.4).joint(0, 0.4, 30);
    Explanation first = said(cable, 0).get(0);
    assertThat(first.sameFaults(cable.truth)).as(first + "").isTrue();
    assertThat(first.probability()).isGreaterThan(0.999);
    Quantity ohms = first.faults().get(1).ohms();
    assertThat(ohms).isNotNull();
    assertThat(ohms.value()).isCloseTo(30, within(2 * ohms.u()));
  }
}
