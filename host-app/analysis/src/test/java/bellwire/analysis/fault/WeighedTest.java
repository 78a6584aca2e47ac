package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class WeighedTest {

  private static Weighed bridge(int a, int b, double at, double logWeight) {
    Fault fault =
        Fault.bridge(
            List.of(a), List.of(b), new Quantity(at, 0.01, "of the run"), Quantity.ohms(1, 0.1));
    return new Weighed(List.of(fault), logWeight, 1, 4, Map.of(a, (int) (at * 10)));
  }

  private static double probability(Weighed w) {
    return Math.exp(w.logWeight());
  }

  /** Weights far below what a double's exponential can hold. */
  @Test
  void weightsSumToOneMostProbableFirst() {
    List<Weighed> said =
        Weighed.normalised(
            List.of(
                bridge(0, 1, 0.2, -5000 + Math.log(1)),
                bridge(0, 2, 0.2, -5000 + Math.log(6)),
                bridge(1, 2, 0.2, -5000 + Math.log(3))));
    assertThat(said).extracting(w -> w.faults().get(0).others().get(0)).containsExactly(2, 2, 1);
    assertThat(probability(said.get(0))).isCloseTo(0.6, within(1e-9));
    assertThat(probability(said.get(1))).isCloseTo(0.3, within(1e-9));
    assertThat(probability(said.get(2))).isCloseTo(0.1, within(1e-9));
  }

  /** The same two ports, at two positions of the plug, either way round. */
  @Test
  void alikeExplanationsAreOneAndShareTheirPlaces() {
    List<Weighed> said =
        Weighed.normalised(
            List.of(
                bridge(0, 1, 0.2, Math.log(0.3)),
                bridge(1, 0, 0.6, Math.log(0.1)),
                bridge(0, 2, 0.5, Math.log(0.6))));
    assertThat(said).hasSize(2);
    assertThat(probability(said.get(0))).isCloseTo(0.6, within(1e-12));
    Weighed joined = said.get(1);
    assertThat(probability(joined)).isCloseTo(0.4, within(1e-12));
    Quantity place = joined.faults().get(0).place();
    assertThat(place).isNotNull();
    assertThat(place.value()).isCloseTo(0.75 * 0.2 + 0.25 * 0.6, within(1e-12));
    assertThat(place.u()).isCloseTo(Math.sqrt(1e-4 + 0.75 * 0.01 + 0.25 * 0.09), within(1e-12));
    assertThat(joined.positions()).containsExactly(Map.entry(0, 2));
  }

  /** Nothing that fits and the same faults by name are two things. */
  @Test
  void unexplainedStaysApart() {
    Weighed fitted = bridge(0, 1, 0.2, 0);
    Weighed not = new Weighed(fitted.faults(), 0, Double.NaN, 4, Map.of());
    List<Weighed> said = Weighed.normalised(List.of(fitted, not));
    assertThat(said).hasSize(2);
    assertThat(said).extracting(Weighed::explained).containsExactlyInAnyOrder(true, false);
    assertThat(probability(said.get(0))).isCloseTo(0.5, within(1e-12));
  }

  @Test
  void whatIsHopelessIsNotKept() {
    List<Weighed> said = Weighed.normalised(List.of(bridge(0, 1, 0.2, -81), bridge(0, 2, 0.5, 0)));
    assertThat(said).hasSize(1);
    assertThat(probability(said.get(0))).isEqualTo(1);
  }
}
