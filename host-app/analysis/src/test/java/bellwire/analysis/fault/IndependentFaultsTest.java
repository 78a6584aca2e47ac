package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.ejml.data.DMatrixRMaj;
import org.junit.jupiter.api.Test;

/** Conductors that nothing joins, each explained by itself; and what explanations are made of. */
class IndependentFaultsTest {
  private static final Quantity PLACE = new Quantity(0.4, 0.02, "of the run");

  private static Setting setting(Quantity common) {
    return new Setting(8, -1, 3.5, 100, 1e9, common, 0.02, 0.01, 0.005, new double[0], 1e-6);
  }

  private static Evidence evidence(
      List<Evidence.Leakage> leaks,
      Map<Integer, Quantity> standingOut,
      List<Integer> broken,
      Map<Integer, Quantity> breaks,
      Map<Integer, Quantity> poor) {
    return new Evidence(
        setting(Quantity.ohms(1, 0.05)),
        List.of(new Stage(Stage.Kind.OPEN, new double[0])),
        List.of(),
        new double[8][8],
        List.of(),
        leaks,
        Map.of(),
        standingOut,
        broken,
        breaks,
        poor,
        Map.of(),
        Set.of());
  }

  private static List<Explanation> standingOut(Map<Integer, Quantity> excess) {
    return Diagnosis.of(evidence(List.of(), excess, List.of(), Map.of(), Map.of())).explanations();
  }

  @Test
  void aHealthyCableHasOneExplanation() {
    Diagnosis.Outcome outcome =
        Diagnosis.of(evidence(List.of(), Map.of(), List.of(), Map.of(), Map.of()));
    assertThat(outcome.explanations()).containsExactly(new Explanation(List.of(), 1, true));
    assertThat(outcome.positions()).isEmpty();
  }

  @Test
  void whatIsSeenWithoutAlternativeIsCertain() {
    Quantity leak = Quantity.ohms(50_000, 100);
    Quantity joint = Quantity.ohms(40, 0.5);
    assertThat(
            Diagnosis.of(
                    evidence(
                        List.of(new Evidence.Leakage(List.of(1), List.of(2, 3), leak)),
                        Map.of(),
                        List.of(5, 6),
                        Map.of(5, PLACE),
                        Map.of(4, joint)))
                .explanations())
        .containsExactly(
            new Explanation(
                List.of(
                    Fault.bridge(List.of(1), List.of(2, 3), null, leak),
                    Fault.joint(4, null, joint),
                    Fault.open(5, PLACE),
                    Fault.open(6, null)),
                1,
                true));
  }

  /**
   * Theory (36) by hand: odds 0.02 f/(0.98 g), f lognormal about 1 ohm with a spread of 2.5, g
   * normal. Of 0.1 ± 0.1 ohm 0.02 · 1.0442/(0.98 · 2.4197) = 0.00881.
   */
  @Test
  void whatStandsOutIsAJointOrChance() {
    double[][] known = {
      {0.5, 0.997_633_60}, {0.35, 0.493_989_26}, {0.3, 0.179_066_13}, {0.1, 0.008_729_64}
    };
    for (double[] row : known) {
      Quantity excess = Quantity.ohms(row[0], 0.1);
      List<Explanation> said = standingOut(Map.of(3, excess));
      assertThat(said).as("excess=" + row[0]).hasSize(2);
      int joint = row[1] > 0.5 ? 0 : 1;
      assertThat(said.get(joint).faults()).containsExactly(Fault.joint(3, null, excess));
      assertThat(said.get(joint).probability()).isCloseTo(row[1], within(1e-8));
      assertThat(said.get(1 - joint).faults()).isEmpty();
      assertThat(said.get(1 - joint).probability()).isCloseTo(1 - row[1], within(1e-8));
    }
    // Sixty standard uncertainties: nothing is left of chance.
    List<Explanation> sure = standingOut(Map.of(3, Quantity.ohms(6, 0.1)));
    assertThat(sure.get(0).probability()).isEqualTo(1);
    assertThat(sure.get(0).faults()).hasSize(1);
    assertThat(sure.get(1).probability()).isZero();
  }

  /** Probabilities of what is independent multiply; the five most probable are kept. */
  @Test
  void ofThreeThatStandOutTheFiveLikeliestAreKept() {
    Map<Integer, Quantity> excess = new TreeMap<>();
    double[] p = {0.997_633_60, 0.493_989_26, 0.179_066_13};
    double[] ohms = {0.5, 0.35, 0.3};
    List<Double> products = new ArrayList<>(List.of(1.0));
    for (int i = 0; i < 3; i++) {
      excess.put(i, Quantity.ohms(ohms[i], 0.1));
      List<Double> next = new ArrayList<>();
      for (double each : products) {
        next.add(each * p[i]);
        next.add(each * (1 - p[i]));
      }
      products = next;
    }
    products.sort((a, b) -> Double.compare(b, a));
    List<Explanation> said = standingOut(excess);
    assertThat(said).hasSize(5);
    for (int k = 0; k < 5; k++) {
      assertThat(said.get(k).probability()).isCloseTo(products.get(k), within(1e-7));
      assertThat(said.get(k).explained()).isTrue();
    }
    assertThat(said.get(0).faults()).as("1 is nearly as likely as not").hasSize(1);
    assertThat(said.get(1).faults()).hasSize(2);
  }

  @Test
  void faultsAreTheSameWhicheverWayRound() {
    Fault bridge = Fault.bridge(List.of(1), List.of(2, 3), PLACE, null);
    assertThat(bridge.sameAs(Fault.bridge(List.of(2, 3), List.of(1), null, null))).isTrue();
    assertThat(bridge.sameAs(Fault.bridge(List.of(1), List.of(2, 3), null, null))).isTrue();
    assertThat(bridge.sameAs(Fault.bridge(List.of(1), List.of(2), PLACE, null))).isFalse();
    assertThat(bridge.sameAs(Fault.bridge(List.of(2), List.of(2, 3), PLACE, null))).isFalse();
    assertThat(Fault.open(1, PLACE).sameAs(Fault.joint(1, PLACE, null))).isFalse();
    assertThat(Fault.open(1, PLACE).sameAs(Fault.open(1, null))).isTrue();
    Explanation both = new Explanation(List.of(bridge, Fault.open(4, PLACE)), 0.3, true);
    assertThat(both.sameFaults(List.of(Fault.open(4, null), bridge))).isTrue();
    assertThat(both.sameFaults(List.of(bridge))).isFalse();
    assertThat(both.sameFaults(List.of(bridge, Fault.open(5, PLACE)))).isFalse();
  }

  /** What each supposition adds stays with all that are made of it. */
  @Test
  void suppositionsAddUp() {
    Supposition one = Supposition.bridges(List.of(new Pair(0, 1)));
    Supposition all =
        one.alsoBroken(1).jointAhead(2).jointBeyond(3).lentTo(4).at(Map.of(5, 6)).alsoBroken(7);
    assertThat(all)
        .isEqualTo(
            new Supposition(
                List.of(new Pair(0, 1)),
                Set.of(1, 7),
                Set.of(),
                Set.of(2),
                Set.of(3),
                Set.of(4),
                Map.of(5, 6)));
    assertThat(one.brokenBeyond()).as("made anew").isEmpty();
  }

  /** About what one conductor has: never below nought, and a default where nothing is known. */
  @Test
  void aRunOfWhichNothingIsKnownHasOneAndAHalfOhms() {
    assertThat(setting(Quantity.ohms(0.8, 0.05)).runOhms()).isEqualTo(0.8);
    assertThat(setting(Quantity.ohms(-0.01, 0.05)).runOhms()).isZero();
    for (Quantity unknown : List.of(Quantity.ohms(0.8, 1 / 0.0), Quantity.ohms(Double.NaN, 0.05))) {
      assertThat(setting(unknown).commonKnown()).isFalse();
      assertThat(setting(unknown).runOhms()).isEqualTo(1.5);
    }
  }

  @Test
  void aFitMayMoveManyQuantities() {
    Parameters parameters = new Parameters();
    for (int i = 0; i < 40; i++) { // more than there is room for at first
      assertThat(parameters.add(i, i + 0.5)).isEqualTo(i);
    }
    parameters.startAt(20, -3);
    assertThat(parameters.count()).isEqualTo(40);
    assertThat(parameters.mean(39)).isEqualTo(39);
    assertThat(parameters.mean(20)).isEqualTo(20);
    assertThat(parameters.sigma(39)).isEqualTo(39.5);
    assertThat(parameters.start()).hasSize(40);
    assertThat(parameters.start()[20]).isEqualTo(-3);
    assertThat(parameters.start()[39]).isEqualTo(39);
  }

  /** The factor of (4 2; 2 5) is (2 0; 1 2), its inverse (1/2 0; -1/4 1/2). */
  @Test
  void correlatedResidualsAreMadeIndependent() {
    DMatrixRMaj covariance = new DMatrixRMaj(new double[][] {{4, 2}, {2, 5}});
    Whitening.replaceByInverseFactor(covariance);
    assertThat(covariance.getData())
        .containsExactly(new double[] {0.5, 0, -0.25, 0.5}, within(1e-15));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                Whitening.replaceByInverseFactor(new DMatrixRMaj(new double[][] {{1, 2}, {2, 1}})))
        .withMessage("no covariance: n=2");
  }

  @Test
  void aCutCableHasTwoConductorsAtLeast() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new CutCable(1, true))
        .withMessage("conductors=1");
    CutCable two = new CutCable(2, true);
    assertThat(two.conductors()).isEqualTo(2);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> two.matrix(new double[3], 0.1))
        .withMessage("reach=3 conductors=2");
    // By hand: a tenth of each to metal, the rest to the other; cut at a half, half of both.
    assertThat(two.matrix(new double[] {1, 1}, 0.1)[0])
        .containsExactly(new double[] {1, -0.9}, within(1e-12));
    double[][] half = two.matrix(new double[] {0.5, 1}, 0.1);
    assertThat(half[0]).containsExactly(new double[] {0.5, -0.45}, within(1e-12));
    // The far half of the first floats between the second and metal: 0.45 and 0.05 in series.
    assertThat(half[1][1]).isCloseTo(0.1 + 0.45 + 0.45 * 0.05 / 0.5, within(1e-12));
  }
}
