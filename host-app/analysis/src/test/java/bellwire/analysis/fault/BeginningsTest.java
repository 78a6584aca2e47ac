package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

/** Where fits begin: near what cables without scatter have. */
class BeginningsTest {
  private static final Supposition BRIDGED = Supposition.bridges(List.of(new Pair(0, 1)));
  private static final int OPEN = 0;
  private static final int TIE = 2;

  /** Of the tie plug, on which positions don't matter, and of the open far end. */
  private static List<Ratio> readings(Evidence evidence, Predicate<Ratio> which) {
    return evidence.ratios().stream()
        .filter(r -> r.p() < 2 && (r.stage() == OPEN || r.stage() == TIE))
        .filter(which)
        .toList();
  }

  private static GroupModel model(Evidence evidence, Supposition supposed, List<Ratio> ratios) {
    int ports = evidence.setting().ports();
    return new GroupModel(
        new Surroundings(
            evidence.setting(), evidence.stages(), new double[ports][ports], List.of(0, 1), ratios),
        ratios,
        supposed.at(Map.of()));
  }

  /** A model that stands where its fit begins. */
  private static GroupModel begun(
      SyntheticCable cable, Supposition supposed, Predicate<Ratio> which) {
    Evidence evidence = cable.evidence();
    List<Ratio> ratios = readings(evidence, which);
    GroupModel model = model(evidence, supposed, ratios);
    new Beginnings(evidence, supposed, ratios).nearest(model, ratios);
    return model;
  }

  private static double bridge(GroupModel model) {
    return Math.exp(model.parameters().start()[model.logOhmsIndex(0)]);
  }

  private static double joint(GroupModel model, int port) {
    return Math.exp(model.parameters().start()[model.logJointIndex(port)]);
  }

  private static SyntheticCable cable(double ohms) {
    return NominalCable.of(5, 6).bridge(0, 1, 0.5, ohms);
  }

  /** Both halves of the copper make a run. */
  @Test
  void whatIsReadBetweenTwoLessARunIsTheBridge() {
    for (double ohms : new double[] {1, 5, 40}) {
      assertThat(bridge(begun(cable(ohms), BRIDGED, r -> true))).isCloseTo(ohms, within(0.03));
    }
  }

  /** Beside the terminals less than a run is read: a fiftieth of it, a milliohm at the least. */
  @Test
  void aBridgeBesideTheTerminalsBeginsSmall() {
    SyntheticCable near = NominalCable.of(5, 6).bridge(0, 1, 0.1, 0.05);
    double read = 2 * (0.1 * NominalCable.RUN_OHMS + 0.011) + 0.05;
    assertThat(bridge(begun(near, BRIDGED, r -> true))).isCloseTo(0.02 * read, within(1e-4));
    SyntheticCable nearest = NominalCable.of(5, 6).bridge(0, 1, 0, 0.001);
    assertThat(bridge(begun(nearest, BRIDGED, r -> true))).isCloseTo(0.001, within(1e-9));
  }

  @Test
  void aBridgeThatNoReadingShowsByItselfHasSeveralSizes() {
    for (double ohms : new double[] {1, 8, 60}) {
      assertThat(bridge(begun(cable(ohms), BRIDGED, r -> r.stage() != OPEN)))
          .isCloseTo(ohms, within(1e-9));
    }
  }

  /** Nine tenths of what is read may be a joint ahead of the bridge, or one of three sizes. */
  @Test
  void whatIsReadIsSharedOutBetweenABridgeAndAJointAhead() {
    for (double[] row : new double[][] {{2, 18}, {4, 6}, {4, 1}, {9, 35}}) {
      for (int port : new int[] {0, 1}) {
        SyntheticCable cable = cable(row[0]).joint(port, 0.2, row[1]);
        GroupModel model = begun(cable, BRIDGED.jointAhead(port), r -> true);
        assertThat(bridge(model)).as("joint=" + row[1]).isCloseTo(row[0], within(0.05));
        assertThat(joint(model, port)).isCloseTo(row[1], within(0.05));
        assertThat(model.logJointIndex(1 - port)).isEqualTo(-1);
      }
    }
  }

  @Test
  void aJointBeyondHasSeveralSizesAndTakesNothingFromTheBridge() {
    for (double ohms : new double[] {1, 6, 35}) {
      SyntheticCable cable = cable(4).joint(1, 0.8, ohms);
      GroupModel model = begun(cable, BRIDGED.jointBeyond(1), r -> true);
      assertThat(bridge(model)).isCloseTo(4, within(0.03));
      assertThat(joint(model, 1)).isCloseTo(ohms, within(1e-9));
    }
  }

  /** A reading is allowed 0.3 ohm, a run and 0.2 %; one alone counts for 10⁴ at the most. */
  @Test
  void aMisfitIsCountedInWhatAReadingIsAllowed() {
    Evidence evidence = cable(40).evidence();
    List<Ratio> ratios = readings(evidence, r -> true);
    for (double off : new double[] {0.5, -3, 1000}) {
      Ratio first = ratios.get(0);
      Ratio moved =
          new Ratio(
              first.stage(),
              first.a(),
              first.b(),
              first.p(),
              first.q(),
              first.held(),
              first.ohms() + off,
              first.u());
      GroupModel model = model(evidence, BRIDGED, List.of(first));
      double misfit = new Beginnings(evidence, BRIDGED, ratios).leastMisfit(model, List.of(moved));
      double begun = model.at(model.parameters().start(), false).values()[0];
      double run = evidence.setting().common().value();
      double allowed = 0.3 + run + 0.002 * begun;
      double expected = Math.min(1e4, Math.pow((begun - moved.ohms()) / allowed, 2));
      assertThat(misfit).isCloseTo(expected, within(1e-9 * expected));
    }
  }
}
