package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * How likely a reading is at a position: on a plug of one resistor the odds are against no
 * explanation at all, 1e-12 spread over 700 ohm, or 1e-3 beside a break. Worked by hand.
 */
class PlugLikelihoodTest {
  private static final Plug ONE = new Plug(new double[] {100}, 1e-4, 5e-6, 15);
  private static final PlugMap MAP = new PlugMap(ONE, Criteria.standard());
  private static final double ARM_U = 0.004;

  /** The reading's, the resistor's tolerance and temperature, two contacts of 9 mohm each. */
  private static final double U =
      Math.sqrt(
          ARM_U * ARM_U + 100 * 100 * (1e-8 / 3 + 7.5e-5 * 7.5e-5 / 9) + 4 * 0.009 * 0.009 / 3);

  private static double density(double ohms, Map<Integer, Quantity> known, boolean broken) {
    Map<Integer, PlugMap.Place> places =
        MAP.places(Map.of(0, Quantity.ohms(ohms, ARM_U)), known, broken);
    return places.get(0).odds() * (broken ? 1e-3 : 1e-12) / 700;
  }

  private static double normal(double width) {
    return 0.98 / (width * Math.sqrt(2 * Math.PI));
  }

  /** Exponential of half an ohm at 2 %, over four decades at a thousandth. */
  private static double joint(double size) {
    return 0.02 * Math.exp(-size / 0.5) / 0.5 + 1e-3 / (size * Math.log(1e4));
  }

  /** It is its own common part: right in the middle, half of all joints reach there. */
  @Test
  void alone() {
    double width = Math.hypot(U, 0.03);
    double expected = normal(width) + 0.5 * joint(width);
    assertThat(density(100.6, Map.of(), false)).isCloseTo(expected, within(1e-6 * expected));
    assertThat(density(100.6, Map.of(), true)).isCloseTo(expected, within(1e-6 * expected));
    width = Math.hypot(U, 0.02 * 5); // conductors of 5 ohm differ by more
    expected = normal(width) + 0.5 * joint(width);
    assertThat(density(105, Map.of(), false)).isCloseTo(expected, within(1e-6 * expected));
  }

  /** With the tie plug's reading only a contact that has changed since adds to it: one in 100. */
  @Test
  void besideTheTiePlugsReading() {
    Map<Integer, Quantity> known = Map.of(0, Quantity.ohms(0.6, 0.008));
    double width = Math.hypot(U, 0.008);
    double middle = 100.6 + 0.022;
    double expected = normal(width) + 0.01 * 0.5 * joint(width);
    assertThat(density(middle, known, false)).isCloseTo(expected, within(1e-6 * expected));
    for (double over : new double[] {0.5, 2, 20}) { // far beyond the width
      expected = 0.01 * joint(over);
      assertThat(density(middle + over, known, false))
          .as("over=" + over)
          .isCloseTo(expected, within(1e-6 * expected));
    }
    double below = -3 * width;
    expected = normal(width) * Math.exp(-4.5) + 0.01 * 0.0013498980316 * joint(width); // Φ(−3)
    assertThat(density(middle + below, known, false)).isCloseTo(expected, within(1e-6 * expected));
    expected = normal(width) * Math.exp(-18); // no joint makes a conductor less
    assertThat(density(middle - 6 * width, known, false))
        .isCloseTo(expected, within(1e-6 * expected));
  }

  /** The lower one of the two in the middle: 0.5, 0.6, 0.7 and 3 ohm have 0.6 in common. */
  @Test
  void whatConductorsHaveInCommonIsTheirMedian() {
    Plug four = new Plug(new double[] {100, 200, 300, 400}, 1e-4, 5e-6, 15);
    PlugMap map = new PlugMap(four, Criteria.standard());
    Map<Integer, Quantity> arms =
        Map.of(
            0, Quantity.ohms(100.5, ARM_U),
            1, Quantity.ohms(200.6, ARM_U),
            2, Quantity.ohms(300.7, ARM_U),
            3, Quantity.ohms(403.0, ARM_U));
    double width = Math.hypot(u(four, 1), 0.03);
    double expected = normal(width) + 0.5 * joint(width);
    assertThat(map.places(arms, Map.of(), false).get(1).odds() * 1e-12 / 700)
        .isCloseTo(expected, within(1e-6 * expected));
  }

  private static double u(Plug plug, int p) {
    double contacts = 2 * 0.009 / Math.sqrt(3);
    return Math.sqrt(ARM_U * ARM_U + plug.u(p) * plug.u(p) + contacts * contacts);
  }

  /** Two conductors of 8 ohm at most, and not less than none within four standard uncertainties. */
  @Test
  void aSumLeavesTwoConductors() {
    Plug two = new Plug(new double[] {100, 200}, 1e-4, 5e-6, 15);
    PlugMap map = new PlugMap(two, Criteria.standard());
    double u = Math.sqrt(0.01 * 0.01 + two.u(0) * two.u(0) + two.u(1) * two.u(1));
    assertThat(pairs(map, 300 + 15.99)).containsExactly(1, 2);
    assertThat(pairs(map, 300 + 16.01)).isEmpty();
    assertThat(pairs(map, 300 - 3.99 * u)).containsExactly(1, 2);
    assertThat(pairs(map, 300 - 4.01 * u)).isEmpty();
  }

  private static List<Integer> pairs(PlugMap map, double sum) {
    return map.pairsFor(Quantity.ohms(sum, 0.01), 8).stream()
        .flatMap(p -> List.of(p[0], p[1]).stream())
        .toList();
  }
}
