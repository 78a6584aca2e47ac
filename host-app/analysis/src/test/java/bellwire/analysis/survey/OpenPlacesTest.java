package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class OpenPlacesTest {
  private static final double STRAY = 15e-12;
  private static final int CONDUCTORS = 8;

  private static OpenResult open(double... farads) {
    List<Integer> ports = new ArrayList<>();
    List<@Nullable Quantity> read = new ArrayList<>();
    for (int i = 0; i < farads.length; i++) {
      ports.add(i);
      read.add(Double.isNaN(farads[i]) ? null : new Quantity(farads[i] + STRAY, 3e-13, "F"));
    }
    ports.add(Ports.METAL);
    read.add(null);
    return OpenFindings.apart(ports, read, new Quantity(STRAY, 2.9e-12, "F"));
  }

  private static double[] fellows(double first) {
    double[] farads = new double[CONDUCTORS];
    Arrays.fill(farads, 1.4e-9);
    farads[0] = first;
    return farads;
  }

  @Test
  void aSecondCableUnderAClampIsNoFellow() {
    double[] farads = fellows(0.7e-9);
    Quantity without = OpenPlaces.of(open(farads), Set.of(0)).get(0);
    farads[3] = 3e-9;
    Quantity with = OpenPlaces.of(open(farads), Set.of(0)).get(0);
    assertThat(with.value()).isCloseTo(without.value(), within(0.003));
    assertThat(with.u()).isCloseTo(without.u(), within(0.003));
  }

  @Test
  void whatWasNotReadOrHasNoFellowHasNoPlace() {
    double[] farads = fellows(Double.NaN);
    assertThat(OpenPlaces.of(open(farads), Set.of(0))).isEmpty();
    assertThat(OpenPlaces.of(open(0.7e-9, 0.3e-9, 0.5e-9), Set.of(0, 1, 2))).isEmpty();
    assertThat(OpenPlaces.of(open(fellows(0.7e-9)), Set.of())).isEmpty();
  }

  @Test
  void theEndsAreNamed() {
    Map<Integer, Quantity> far = OpenPlaces.of(open(fellows(1.38e-9)), Set.of(0));
    AlongRun atFar = AlongRun.of(far.get(0), new Quantity(20, 0.3, "m"));
    assertThat(atFar.hint()).contains("far end").contains("wall's clamp");
    Map<Integer, Quantity> near = OpenPlaces.of(open(fellows(0.02e-9)), Set.of(0));
    AlongRun atNear = AlongRun.of(near.get(0), new Quantity(20, 0.3, "m"));
    assertThat(atNear.hint()).contains("near end");
    AlongRun middle =
        AlongRun.of(new Quantity(0.62, 0.004, "of the run"), new Quantity(24.5, 0.4, "m"));
    assertThat(middle.hint()).isEmpty();
    assertThat(middle.words()).isEqualTo("at 62.00 \u00b1 0.40 % of the run");
    assertThat(middle.metres().value()).isCloseTo(15.19, within(1e-9));
    assertThat(middle.metres().u()).isCloseTo(Math.hypot(0.62 * 0.4, 24.5 * 0.004), within(1e-9));
  }

  @Test
  void aVaguePlaceIsGivenAsARange() {
    AlongRun vague = new AlongRun(new Quantity(0.5, 0.2, "of the run"), null);
    assertThat(vague.decided()).isFalse();
    assertThat(vague.words()).isEqualTo("somewhere between 10 and 90 % of the run");
    assertThat(vague.hint()).isEmpty();
  }
}
