package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Evidence;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Which conductors the plugs did not reach, and which of those reached are in doubt. */
class FaultReachTest {
  private static final Criteria CRITERIA = Criteria.standard();
  private static final Plug PLUG = new Plug(new double[] {50, 90, 133, 174, 215}, 1e-4, 5e-6, 15);

  private static StarResult reaching(List<Integer> connected, double coarseOhms) {
    double[] coarse = new double[Ports.COUNT];
    Arrays.fill(coarse, coarseOhms);
    return new StarResult(connected, Map.of(), Map.of(), null, List.of(), 0, coarse);
  }

  private static Evidence evidence(
      OpenResult open, @Nullable StarResult coded, @Nullable StarResult tie) {
    return new FaultEvidence(IdealBoard.MODEL, CRITERIA, PLUG, open, coded, tie)
        .evidence(Map.of(), new JointTest(Map.of(), CRITERIA), Map.of(), Map.of());
  }

  @Test
  void brokenIsWhatHungOnNoPlug() {
    OpenResult open = new OpenFindings(0, 1, 2, 3, 16).result();
    StarResult coded = reaching(List.of(0, 1), 1e9);
    StarResult tie = reaching(List.of(0, 2), 1e9);
    assertThat(evidence(open, coded, tie).broken()).containsExactly(3);
    assertThat(evidence(open, coded, null).broken()).containsExactly(2, 3);
    assertThat(evidence(open, null, tie).broken()).containsExactly(1, 3);
    assertThat(evidence(open, null, null).broken()).isEmpty();
  }

  /** 20 µS with the plug on, of which 10 µS are there without one: 100 kohm to the plug. */
  @Test
  void whatLeaksWithoutAPlugIsNoPathToIt() {
    OpenResult open = new OpenFindings(0, 1, 2).result();
    open.restOhms()[2] = 100e3;
    Evidence evidence = evidence(open, reaching(List.of(0, 1), 50e3), null);
    assertThat(evidence.poor()).containsOnlyKeys(2);
    assertThat(evidence.poor().get(2).value()).isCloseTo(100e3, within(1e-3));
    assertThat(evidence.poor().get(2).u()).isCloseTo(5e3, within(1e-3));
    assertThat(evidence.broken()).isEmpty();
    open.restOhms()[2] = 50e3;
    assertThat(evidence(open, reaching(List.of(0, 1), 50e3), null).broken()).containsExactly(2);
  }

  /** Of two seatings the last, the tie plug's, tells. */
  @Test
  void theTiePlugTellsThePoorPath() {
    OpenResult open = new OpenFindings(0, 1, 2).result();
    Evidence evidence =
        evidence(open, reaching(List.of(0, 1), 10e3), reaching(List.of(0, 1), 40e3));
    assertThat(evidence.poor().get(2).value()).isCloseTo(40e3, within(2.0));
  }

  /**
   * On the coded plug with no place, or lower than its fellows: 0.2 ohm beside 0.5. One that
   * touches another, or did not reach, is no case of it.
   */
  @Test
  void doubtfulIsAnArmThatNoPlaceExplains() {
    OpenResult open = new OpenFindings(0, 1, 2, 3, 4, 5).joined(3, 4, 1).result();
    Map<Integer, Quantity> ohms = new LinkedHashMap<>();
    for (int port : new int[] {0, 1, 2}) {
      ohms.put(port, Quantity.ohms(port == 2 ? 0.2 : 0.5, 0.001));
    }
    ohms.put(5, Quantity.ohms(0.5, 0.001));
    Map<Integer, Place> places = Map.of(0, new Place(1, 1e9), 2, new Place(3, 1e9));
    StarResult coded = reaching(List.of(0, 1, 2, 3, 4), 1e9);
    assertThat(doubtful(open, coded, ohms, places)).containsExactlyInAnyOrder(1, 2);
    assertThat(doubtful(open, null, ohms, places)).isEmpty();
  }

  private static Iterable<Integer> doubtful(
      OpenResult open,
      @Nullable StarResult coded,
      Map<Integer, Quantity> ohms,
      Map<Integer, Place> places) {
    return new FaultEvidence(IdealBoard.MODEL, CRITERIA, PLUG, open, coded, null)
        .evidence(ohms, new JointTest(ohms, CRITERIA), places, Map.of())
        .doubtful();
  }
}
