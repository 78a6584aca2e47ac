package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Moments of truncated normal distributions and of mixtures, against sums of their densities. */
class PlacesTest {
  private static final String UNIT = "of the run";

  private static Quantity at(double value, double u) {
    return new Quantity(value, u, UNIT);
  }

  /** By the midpoint rule over the run. */
  private static Quantity summed(double mean, double sigma) {
    int steps = 200_000;
    double mass = 0;
    double first = 0;
    double second = 0;
    for (int k = 0; k < steps; k++) {
      double x = (k + 0.5) / steps;
      double density = Math.exp(-0.5 * Math.pow((x - mean) / sigma, 2));
      mass += density;
      first += density * x;
      second += density * x * x;
    }
    double centre = first / mass;
    return at(centre, Math.sqrt(second / mass - centre * centre));
  }

  @Test
  void momentsAreThoseOfTheCutDistribution() {
    for (double mean : new double[] {-0.2, 0, 0.03, 0.5, 0.9, 1.1}) {
      for (double sigma : new double[] {0.05, 0.2, 1, 10}) {
        Quantity said = Places.withinRun(at(mean, sigma));
        Quantity summed = summed(mean, sigma);
        String as = "mean=" + mean + " sigma=" + sigma;
        assertThat(said.value()).as(as).isCloseTo(summed.value(), within(1e-6));
        assertThat(said.u()).as(as).isCloseTo(summed.u(), within(1e-6));
        assertThat(said.unit()).isEqualTo(UNIT);
      }
    }
  }

  /** Mean √(2/π) and variance 1 − 2/π of half a normal distribution, of which the cut is one. */
  @Test
  void cutAtItsMeanItIsHalfNormal() {
    Quantity half = Places.withinRun(at(0, 0.01));
    assertThat(half.value()).isCloseTo(0.01 * Math.sqrt(2 / Math.PI), within(1e-12));
    assertThat(half.u()).isCloseTo(0.01 * Math.sqrt(1 - 2 / Math.PI), within(1e-12));
  }

  /** JCGM 100:2008 4.3.7: half the width over √3 (clause number from memory). */
  @Test
  void anywhereBetweenTwoEndsIsRectangular() {
    Quantity between = Places.uniform(0.2, 0.5, UNIT);
    assertThat(between.value()).isCloseTo(0.35, within(1e-15));
    assertThat(between.u()).isCloseTo(0.15 / Math.sqrt(3), within(1e-15));
    assertThat(between.unit()).isEqualTo(UNIT);
  }

  /** Uniform from 0 to 1 where nothing is known. */
  @Test
  void unknownIsUniform() {
    Quantity anywhere = Places.withinRun(at(0.4, 1000));
    assertThat(anywhere.value()).isCloseTo(0.5, within(1e-5));
    assertThat(anywhere.u()).isCloseTo(Math.sqrt(1.0 / 12), within(1e-5));
  }

  @Test
  void farBeyondAnEndIsThatEnd() {
    assertThat(Places.withinRun(at(-1, 0.01))).isEqualTo(at(0, 0.01));
    assertThat(Places.withinRun(at(2, 0.01))).isEqualTo(at(1, 0.01));
  }

  @Test
  void insideNothingChanges() {
    Quantity said = Places.withinRun(at(0.4, 0.01));
    assertThat(said.value()).isCloseTo(0.4, within(1e-12));
    assertThat(said.u()).isCloseTo(0.01, within(1e-12));
  }

  /** Law of total variance: that within the parts and that between them. */
  @Test
  void mixtureHasBothVariances() {
    Quantity mixed = Places.mixed(List.of(at(0.2, 0.03), at(0.6, 0.04)), new double[] {0.25, 0.75});
    assertThat(mixed).isNotNull();
    assertThat(mixed.value()).isCloseTo(0.5, within(1e-12));
    double within = 0.25 * 0.0009 + 0.75 * 0.0016;
    double between = 0.25 * 0.09 + 0.75 * 0.01;
    assertThat(mixed.u()).isCloseTo(Math.sqrt(within + between), within(1e-12));
  }

  @Test
  void mixtureWithAnUnknownPartIsUnknown() {
    List<Quantity> parts = new ArrayList<>();
    parts.add(at(0.2, 0.03));
    parts.add(null);
    assertThat(Places.mixed(parts, new double[] {0.5, 0.5})).isNull();
  }
}
