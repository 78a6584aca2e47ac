package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What the circuit of a group reads where Ohm's law gives it at once. */
class GroupOhmsTest {
  private static final int FELLOW = 3;
  private static final double RUN = 1;
  private static final double CONTACT = 0.4;
  private static final double ARM = 50;

  /** Dividers of a gigohm take 350²/10⁹ = 120 microohms off a reading of 350 ohm. */
  private static final double NEAR = 3e-4;

  private static final Setting SETTING =
      new Setting(
          4,
          -1,
          3.5,
          100,
          1e9,
          Quantity.ohms(RUN, 0.1),
          1e-9,
          CONTACT,
          0.05,
          new double[] {33, ARM},
          1e-4);

  private static final double[] FELLOW_ARM = {Double.NaN, Double.NaN, Double.NaN, 2};
  private static final List<Stage> STAGES =
      List.of(
          new Stage(Stage.Kind.TIE, FELLOW_ARM),
          new Stage(Stage.Kind.CODED, FELLOW_ARM),
          new Stage(Stage.Kind.OPEN, new double[0]));

  private static Ratio reading(int stage, int a, int b) {
    return new Ratio(stage, a, b, a, b, new BitSet(), 0, 1);
  }

  private static GroupModel model(Supposition supposed, Ratio... ratios) {
    Surroundings surroundings =
        new Surroundings(SETTING, STAGES, new double[4][4], List.of(0, 1, 2), List.of(ratios));
    return new GroupModel(surroundings, List.of(ratios), supposed);
  }

  private static double[] values(GroupModel model) {
    return model.at(model.parameters().start(), false).values();
  }

  /** Clamp, run, contact, the plug's resistor; the fellow's arm of 2 ohm. */
  @Test
  void aConductorWithoutBridgesIsOneChain() {
    Supposition alone = Supposition.bridges(List.of()).at(Map.of(0, 1, 1, 0));
    double[] read =
        values(model(alone, reading(0, 0, FELLOW), reading(1, 0, FELLOW), reading(1, 1, FELLOW)));
    double chain = RUN + 2 * CONTACT + 2;
    assertThat(read).containsExactly(new double[] {chain, chain + ARM, chain + 33}, within(NEAR));
  }

  /** What an arm that may be lent has is one unknown, from 350 ohm; without position it is none. */
  @Test
  void aLentArmIsAnythingAndNotThePlugsResistor() {
    Supposition lent = Supposition.bridges(List.of()).lentTo(0).at(Map.of(0, 1));
    GroupModel model =
        model(lent, reading(0, 0, FELLOW), reading(1, 0, FELLOW), reading(1, 1, FELLOW));
    double chain = RUN + 2 * CONTACT + 2;
    assertThat(values(model))
        .containsExactly(new double[] {chain, chain + 350, chain}, within(NEAR));
    Parameters parameters = model.parameters();
    int arm = 0;
    while (parameters.sigma(arm) != 200) {
      arm++;
    }
    GroupModel.Predicted predicted = model.at(parameters.start(), true);
    assertThat(predicted.slope(0, arm)).isZero();
    assertThat(predicted.slope(1, arm)).isCloseTo(1, within(1e-5));
    assertThat(model.at(parameters.start(), false).slope(1, arm)).isNaN();
    // On the tie plug what is lent takes away as much as a run.
    int asWideAsARun = 0;
    for (int i = 1; i < parameters.count(); i++) {
      asWideAsARun += parameters.sigma(i) == RUN ? 1 : 0;
    }
    assertThat(asWideAsARun).isEqualTo(2);
  }

  /** Two that are cut on both sides of their bridge; the rest reads as without them. */
  @Test
  void whatHangsOnNothingLeavesTheRestAsItIs() {
    Supposition cut =
        new Supposition(
            List.of(new Pair(1, 2)),
            Set.of(1, 2),
            Set.of(1, 2),
            Set.of(),
            Set.of(),
            Set.of(),
            Map.of(0, 1));
    double[] read = values(model(cut, reading(0, 0, FELLOW), reading(1, 0, FELLOW)));
    double chain = RUN + 2 * CONTACT + 2;
    assertThat(read).containsExactly(new double[] {chain, chain + ARM}, within(NEAR));
  }

  /** Copper to the bridge of either, both clamps, and the bridge; on the open far end. */
  @Test
  void alongABridgeIsTheCopperAheadOfIt() {
    Supposition bridged = Supposition.bridges(List.of(new Pair(0, 1)));
    GroupModel model = model(bridged, reading(2, 0, 1));
    model.startAlong(0, 0.3);
    model.startRunAt(4);
    model.parameters().startAt(model.logOhmsIndex(0), Math.log(7));
    assertThat(values(model)[0]).isCloseTo(2 * 0.3 * 4 + 2 * CONTACT + 7, within(NEAR));
    assertThat(model.logJointIndex(0)).isEqualTo(-1);
    assertThat(model.logJointIndex(FELLOW)).as("not of the group").isEqualTo(-1);
  }
}
