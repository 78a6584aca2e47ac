package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.BreakPlace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Which whole conductors a broken one on P1 is compared with. */
class FellowsTest {
  private static final double WHOLE = 1.4e-9;

  private static OpenResult open(double strayU, boolean metal, @Nullable Quantity... farads) {
    List<Integer> ports = new ArrayList<>();
    for (int i = 0; i < farads.length; i++) {
      ports.add(metal && i == farads.length - 1 ? Ports.METAL : i);
    }
    return OpenFindings.apart(ports, Arrays.asList(farads), new Quantity(15e-12, strayU, "F"));
  }

  private static Quantity farads(double value, double u) {
    return new Quantity(value, u, "F");
  }

  /** Half of a run on P1, then these. */
  private static Quantity[] half(double u, double... whole) {
    Quantity[] farads = new Quantity[whole.length + 1];
    farads[0] = farads(WHOLE / 2, u);
    for (int i = 0; i < whole.length; i++) {
      farads[i + 1] = farads(whole[i], u);
    }
    return farads;
  }

  private static Quantity place(double strayU, @Nullable Quantity... farads) {
    Map<Integer, Quantity> places = OpenPlaces.of(open(strayU, false, farads), Set.of(0));
    Quantity place = places.get(0);
    assertThat(place).isNotNull();
    return place;
  }

  /** Whether the last of these has a say in where P1 is broken. */
  private static boolean counts(double strayU, Quantity... farads) {
    @Nullable Quantity[] without = farads.clone();
    without[farads.length - 1] = null;
    return !place(strayU, farads).equals(place(strayU, without));
  }

  private static double[] seven(double last) {
    double[] whole = new double[7];
    Arrays.fill(whole, WHOLE);
    whole[6] = last;
    return whole;
  }

  /** Of a pair one is enough. */
  @Test
  void oneWholeConductorPlacesABreakOfTheOther() {
    assertThat(place(3e-12, half(1e-12, WHOLE)).value()).isCloseTo(0.5, within(0.05));
    assertThat(OpenPlaces.of(open(3e-12, false, farads(WHOLE, 1e-12)), Set.of(0))).isEmpty();
  }

  /** Where few are known, up to a third and a little more from their middle. */
  @Test
  void ofFewAConductorUnlikeByMoreThanAThirdIsNoFellow() {
    for (double sign : new double[] {-1, 1}) {
      assertThat(counts(3e-12, half(1e-12, WHOLE, WHOLE, (1 + 0.34 * sign) * WHOLE))).isTrue();
      assertThat(counts(3e-12, half(1e-12, WHOLE, WHOLE, (1 + 0.36 * sign) * WHOLE))).isFalse();
    }
  }

  /** Six standard deviations; the pairs' spread of 2 % among 7 · 3 of them, stray and noise. */
  private static double limit(int conductors, double strayU, double readU) {
    double spread = BreakPlace.PAIR_SPREAD * WHOLE / Math.sqrt(3.0 * (conductors - 1));
    return 6 * Math.sqrt(spread * spread + strayU * strayU + readU * readU);
  }

  /** Each part by itself the largest. */
  @Test
  void ofManyAFellowLiesWithinSixStandardDeviations() {
    for (double[] strayAndRead :
        new double[][] {{1e-12, 1e-13}, {20e-12, 1e-13}, {1e-13, 10e-12}}) {
      double stray = strayAndRead[0];
      double read = strayAndRead[1];
      double limit = limit(8, stray, read);
      String as = "stray=" + stray + " read=" + read;
      assertThat(counts(stray, half(read, seven(WHOLE + 0.99 * limit)))).as(as).isTrue();
      assertThat(counts(stray, half(read, seven(WHOLE + 1.01 * limit)))).as(as).isFalse();
      assertThat(counts(stray, half(read, seven(WHOLE - 1.01 * limit)))).as(as).isFalse();
    }
  }

  /** Five are enough to know it: what four allow is too much among them. */
  @Test
  void fiveAreEnoughToKnowTheSpread() {
    double off = 1.2 * WHOLE;
    assertThat(counts(1e-12, half(1e-13, WHOLE, WHOLE, WHOLE, off))).isTrue();
    assertThat(counts(1e-12, half(1e-13, WHOLE, WHOLE, WHOLE, WHOLE, off))).isFalse();
  }

  /** By the median absolute deviation, 1.4826 of which are a standard deviation: here 30 pF. */
  @Test
  void unlikeFellowsAllowMore() {
    double limit = 6 * 1.4826 * 30e-12;
    for (double share : new double[] {0.99, 1.01}) {
      double[] whole = {
        WHOLE,
        WHOLE - 30e-12,
        WHOLE + 30e-12,
        WHOLE - 30e-12,
        WHOLE + 30e-12,
        WHOLE - 30e-12,
        WHOLE + share * limit
      };
      assertThat(counts(1e-12, half(1e-13, whole))).as("share=" + share).isEqualTo(share < 1);
    }
    double wide = 0.1 * WHOLE;
    double[] whole = {
      WHOLE, WHOLE - wide, WHOLE + wide, WHOLE - wide, WHOLE + wide, WHOLE - wide, 1.36 * WHOLE
    };
    assertThat(counts(1e-12, half(1e-13, whole))).isFalse(); // a third and a little, at the most
  }

  /** One known to a hundredth puts those aside that are known worse; of a short cable all count. */
  @Test
  void vagueFellowsCountWhereThereAreNoOthers() {
    Quantity half = farads(WHOLE / 2, 1e-12);
    Quantity sure = farads(WHOLE, 0.0099 * WHOLE);
    Quantity vague = farads(0.9 * WHOLE, 0.0101 * 0.9 * WHOLE);
    Quantity vaguer = farads(WHOLE, 0.02 * WHOLE);
    assertThat(counts(1e-12, half, sure, sure, vague)).isFalse();
    assertThat(counts(1e-12, half, vaguer, vaguer, vague)).isTrue();
  }

  /** What was charged together with metal is no conductor's. */
  @Test
  void metalIsNoFellow() {
    Quantity[] farads = half(1e-12, WHOLE, WHOLE, 2 * WHOLE);
    @Nullable Quantity[] without = farads.clone();
    without[3] = null;
    assertThat(OpenPlaces.of(open(1e-12, true, farads), Set.of(0)))
        .isEqualTo(OpenPlaces.of(open(1e-12, true, without), Set.of(0)))
        .isNotEmpty();
  }

  /** As measured, otherwise as given, to a hundredth. */
  @Test
  void theRunIsTheMeasuredOneFirst() {
    Quantity measured = new Quantity(24, 0.4, "m");
    assertThat(OpenPlaces.run(measured, 20)).isEqualTo(measured);
    assertThat(OpenPlaces.run(measured, Double.NaN)).isEqualTo(measured);
    assertThat(OpenPlaces.run(null, 20)).isEqualTo(new Quantity(20, 0.2, "m"));
    assertThat(OpenPlaces.run(null, Double.NaN)).isNull();
  }
}
