package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.attached.Landing.Joined;
import bellwire.analysis.findings.ChangeFinding;
import bellwire.analysis.uncertainty.Quantity;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A landing with a 16 ohm coil from P1 to P2 and a jumper of 50 mohm from P3 to P4. */
class LandingComparisonTest {
  private static final Joined COIL = new Joined(0, 1, 16, 0.01);
  private static final Joined JUMPER = new Joined(2, 3, 0.05, 0.001);
  private static final Landing BEFORE = landing(List.of(COIL, JUMPER), Map.of(), Map.of());

  private static Landing landing(
      List<Joined> joined, Map<Integer, Double> farads, Map<Integer, Quantity> arms) {
    return new Landing(List.of(0, 1, 2, 3, 4), joined, List.of(), farads, arms);
  }

  private static List<LandingChange> changes(Joined... now) {
    return new LandingComparison(BEFORE, landing(List.of(now), Map.of(), Map.of())).changes();
  }

  @Test
  void theSameLandingHasNoChanges() {
    assertThat(changes(COIL, JUMPER)).isEmpty();
    assertThat(changes(new Joined(0, 1, 16.2, 0.01), new Joined(2, 3, 0.11, 0.001))).isEmpty();
  }

  @Test
  void newCopperIsJoinedAndSaidWithItsFigures() {
    assertThat(changes(COIL, JUMPER, new Joined(1, 4, 0.06, 0.001)))
        .containsExactly(
            new LandingChange(
                ChangeFinding.JOINED, List.of(1, 4), "P2 and P5: apart before, 0.0600 ohm now"));
  }

  /** A jumper beside the coil: 16 ohm fall below what copper has. */
  @Test
  void copperBesideALoadIsJoined() {
    assertThat(changes(new Joined(0, 1, 0.06, 0.001), JUMPER))
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.JOINED);
    assertThat(changes(new Joined(0, 1, 5.1, 0.001), JUMPER)).isEmpty(); // no copper
    assertThat(changes(new Joined(0, 1, 4.9, 0.001), JUMPER)).hasSize(1);
  }

  @Test
  void ofOneNewPieceTheNearestPairIsTold() {
    assertThat(changes(COIL, JUMPER, new Joined(1, 4, 0.5, 0.001), new Joined(0, 4, 0.06, 0.001)))
        .singleElement()
        .satisfies(c -> assertThat(c.ports()).containsExactly(0, 4));
  }

  @Test
  void aMissingJumperIsParted() {
    assertThat(changes(COIL))
        .containsExactly(
            new LandingChange(
                ChangeFinding.PARTED, List.of(2, 3), "P3 and P4: 0.0500 ohm before, apart now"));
    assertThat(changes(COIL, new Joined(2, 3, 0.16, 0.001))).hasSize(1); // thrice and more
    assertThat(changes(COIL, new Joined(2, 3, 0.14, 0.001))).isEmpty();
  }

  /** Less than four standard uncertainties is no change. */
  @Test
  void whatTheReadingsDoNotTellApartIsNoChange() {
    Landing before = landing(List.of(new Joined(0, 1, 1.0, 0.1)), Map.of(), Map.of());
    Landing after = landing(List.of(new Joined(0, 1, 0.5, 0.1)), Map.of(), Map.of());
    assertThat(new LandingComparison(before, after).changes()).isEmpty();
    Landing sure = landing(List.of(new Joined(0, 1, 0.5, 0.01)), Map.of(), Map.of());
    Landing surer = landing(List.of(new Joined(0, 1, 1.0, 0.01)), Map.of(), Map.of());
    assertThat(new LandingComparison(surer, sure).changes())
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.JOINED);
  }

  private static List<LandingChange> clamps(
      Map<Integer, Double> faradsNow, Map<Integer, Quantity> armsNow) {
    Map<Integer, Double> farads = new HashMap<>();
    Map<Integer, Quantity> arms = new HashMap<>();
    for (int port = 0; port < 5; port++) {
      farads.put(port, 1.5e-9);
      arms.put(port, Quantity.ohms(1.0, 0.01));
    }
    Landing before = landing(List.of(COIL), farads, arms);
    return new LandingComparison(before, landing(List.of(COIL), faradsNow, armsNow)).changes();
  }

  private static <T> Map<Integer, T> all(T value, int but, T other) {
    Map<Integer, T> map = new HashMap<>();
    for (int port = 0; port < 5; port++) {
      map.put(port, port == but ? other : value);
    }
    map.values().removeIf(v -> v == null);
    return map;
  }

  private static final Quantity ARM = Quantity.ohms(1.0, 0.01);

  @Test
  void aClampIsLooseFromATenthOfAnOhmAndATwentiethOn() {
    assertThat(clamps(all(1.5e-9, -1, 0.0), all(ARM, 2, Quantity.ohms(1.14, 0.01)))).isEmpty();
    assertThat(clamps(all(1.5e-9, -1, 0.0), all(ARM, 2, Quantity.ohms(1.16, 0.01))))
        .containsExactly(
            new LandingChange(
                ChangeFinding.LOOSE,
                List.of(2),
                "P3: 1.00 ohm to the tie plug before, 1.16 ohm now"));
    assertThat(clamps(all(1.5e-9, -1, 0.0), all(ARM, 2, Quantity.ohms(1.16, 0.1)))).isEmpty();
  }

  @Test
  void withoutAPathToThePlugAClampIsLoose() {
    assertThat(clamps(all(1.5e-9, -1, 0.0), all(ARM, 2, null)))
        .containsExactly(
            new LandingChange(
                ChangeFinding.LOOSE, List.of(2), "P3: no path to the tie plug any more"));
    assertThat(clamps(all(1.5e-9, -1, 0.0), Map.of())).isEmpty(); // no plug this time
  }

  @Test
  void aConductorWhoseCapacitanceIsGoneIsGone() {
    assertThat(clamps(all(1.5e-9, 3, 0.44e-9), all(ARM, 3, null)))
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.GONE);
    assertThat(clamps(all(1.5e-9, 3, 0.46e-9), all(ARM, -1, ARM))).isEmpty();
    assertThat(clamps(all(1.5e-9, 3, null), all(ARM, -1, ARM))).isEmpty(); // hidden by a joint
    Landing before = landing(List.of(), Map.of(3, 1.5e-9), Map.of());
    Landing after = new Landing(List.of(0, 1, 2), List.of(), List.of(), Map.of(), Map.of());
    assertThat(new LandingComparison(before, after).changes())
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.GONE);
  }

  /** Copper that is new or gone is cleared first: it moves the arms. */
  @Test
  void clampsAreComparedWhereNoCopperChanged() {
    Landing before = landing(List.of(JUMPER), Map.of(4, 1.5e-9), Map.of());
    Landing after = landing(List.of(), Map.of(4, 1e-12), Map.of());
    assertThat(new LandingComparison(before, after).changes())
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.PARTED);
  }

  @Test
  void portsAreLookedUpInEitherOrderAndNeverBelowZero() {
    Landing landing = landing(List.of(new Joined(1, 4, -0.001, 0.002)), Map.of(), Map.of());
    assertThat(landing.ohms(4, 1)).isZero();
    assertThat(landing.u(4, 1)).isEqualTo(0.002);
    assertThat(landing.u(1, 3)).isZero();
    assertThat(landing.ohms(1, 3)).isInfinite();
  }

  /** Two jumpers nearer than 0.12 ohm are both copper, whatever their ratio. */
  @Test
  void aJumperThatIsPressedBetterIsNoChange() {
    Landing good = landing(List.of(new Joined(2, 3, 0.03, 0.001)), Map.of(), Map.of());
    Landing fair = landing(List.of(new Joined(2, 3, 0.11, 0.001)), Map.of(), Map.of());
    Landing poor = landing(List.of(new Joined(2, 3, 0.13, 0.001)), Map.of(), Map.of());
    assertThat(new LandingComparison(good, fair).changes()).isEmpty();
    assertThat(new LandingComparison(fair, good).changes()).isEmpty();
    assertThat(new LandingComparison(good, poor).changes())
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.PARTED);
    assertThat(new LandingComparison(poor, good).changes())
        .extracting(LandingChange::kind)
        .containsExactly(ChangeFinding.JOINED);
  }

  /** 30 mohm is the least that counts. */
  @Test
  void aFewMilliohmAreNoCopper() {
    Landing before = landing(List.of(new Joined(2, 3, 0.150, 0.001)), Map.of(), Map.of());
    Landing after = landing(List.of(new Joined(2, 3, 0.124, 0.001)), Map.of(), Map.of());
    assertThat(new LandingComparison(before, after).changes()).isEmpty();
    after = landing(List.of(new Joined(2, 3, 0.116, 0.001)), Map.of(), Map.of());
    assertThat(new LandingComparison(before, after).changes()).hasSize(1);
  }

  /** A twentieth of 4 ohm more than the tenth of an ohm of the contacts. */
  @Test
  void aLongArmMayDifferByMore() {
    Landing before = landing(List.of(), Map.of(), Map.of(2, Quantity.ohms(4, 0.01)));
    for (double[] nowAndLoose : new double[][] {{4.29, 0}, {4.31, 1}}) {
      Landing now = landing(List.of(), Map.of(), Map.of(2, Quantity.ohms(nowAndLoose[0], 0.01)));
      assertThat(new LandingComparison(before, now).changes()).hasSize((int) nowAndLoose[1]);
    }
  }
}
