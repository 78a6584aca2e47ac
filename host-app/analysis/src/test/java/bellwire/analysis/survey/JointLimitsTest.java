package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Where a conductor begins to stand out, and when its fellows are no measure for it. */
class JointLimitsTest {
  private static final Criteria CRITERIA = Criteria.standard();

  private static Map<Integer, Quantity> ohms(double u, double... values) {
    Map<Integer, Quantity> map = new LinkedHashMap<>();
    for (int port = 0; port < values.length; port++) {
      map.put(port, Quantity.ohms(values[port], u));
    }
    return map;
  }

  private static JointTest test(double... values) {
    return new JointTest(ohms(0.0075, values), CRITERIA);
  }

  /** From 60 mohm less on; 4.5 of hypot(7.5, 0.5 % of 500) mohm are 36. */
  @Test
  void lowerThanItsFellowsIsLow() {
    JointTest test = test(0.5, 0.5, 0.5, 0.5, 0.435, 0.445, 0.8);
    assertThat(test.low(4)).isTrue();
    assertThat(test.low(5)).isFalse();
    assertThat(test.low(6)).isFalse();
    assertThat(test.low(0)).isFalse();
    assertThat(test.low(9)).isFalse(); // of which nothing was read
  }

  /** Where the readings are worse, 4.5 standard deviations: 4.5 · hypot(50, 2.5) mohm are 225. */
  @Test
  void lowIsJudgedByTheReadingsUncertainty() {
    JointTest test = new JointTest(ohms(0.05, 1.0, 1.0, 1.0, 1.0, 0.78, 0.77), CRITERIA);
    assertThat(test.low(4)).isFalse();
    assertThat(test.low(5)).isTrue();
  }

  /** Excess with its deviation: as the fellows scatter, at most twice what is expected of them. */
  @Test
  void theFellowsScatterIsTheExcessesUncertainty() {
    double expected = Math.hypot(0.0075, 0.005 * 0.5);
    Quantity alike = test(0.5, 0.5, 0.5, 0.5, 0.7).standingOut().get(4);
    assertThat(alike.value()).isCloseTo(0.2, within(1e-12));
    assertThat(alike.u()).isCloseTo(Math.hypot(0.0075, 0.0025), within(1e-12));
    // Deviations 0, 8, 8, 8, 8 mohm and the joint's: their median by 1.4826.
    Quantity spread = test(0.5, 0.508, 0.492, 0.508, 0.492, 0.492, 0.7).standingOut().get(6);
    assertThat(spread.value()).isCloseTo(0.2, within(1e-12));
    assertThat(spread.u()).isCloseTo(1.4826 * 0.008, within(1e-12));
    Quantity wide = test(0.5, 0.54, 0.46, 0.54, 0.46, 0.46, 0.7).standingOut().get(6);
    assertThat(wide.u()).isCloseTo(2 * expected, within(1e-12));
  }

  /** Two broken ones bridged onto a whole one leave it a third; lower, the others have joints. */
  @Test
  void belowAThirdOfItsFellowsItIsTheMeasure() {
    assertThat(test(5.08, 5.12, 1.66).standingOut()).isEmpty(); // 5.08/3 less 60 mohm are 1.63
    assertThat(test(5.08, 5.12, 1.60).standingOut()).containsOnlyKeys(0, 1);
  }

  /** Three with the same joint are no chance. */
  @Test
  void threeThatAgreeAreRight() {
    assertThat(test(5.08, 5.1, 5.12, 0.5).standingOut()).isEmpty();
  }

  @Test
  void halfThatAgreeAreRightAndFewerAreNot() {
    assertThat(test(1, 3, 3, 9).standingOut()).containsOnlyKeys(3);
    assertThat(test(1, 2, 3, 5, 9).standingOut()).containsOnlyKeys(1, 2, 3, 4);
  }

  /** Known to a tenth and 60 mohm, it is a measure. */
  @Test
  void aVagueReadingIsNoMeasure() {
    Map<Integer, Quantity> readings = ohms(0.0075, 5.08, 5.12);
    readings.put(2, Quantity.ohms(0.6, 0.115));
    assertThat(new JointTest(readings, CRITERIA).standingOut()).containsOnlyKeys(0, 1);
    readings.put(2, Quantity.ohms(0.6, 0.125));
    assertThat(new JointTest(readings, CRITERIA).standingOut()).isEmpty();
  }
}
