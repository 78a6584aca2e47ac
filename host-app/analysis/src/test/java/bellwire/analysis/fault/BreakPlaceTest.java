package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.BreakPlace.Charged;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Places of breaks, against a cable put together slice by slice and the textbook's ratio. */
class BreakPlaceTest {
  private static final int DRAWS = Integer.getInteger("bellwire.breaks", 300);
  private static final long SEED = 20_261;
  private static final double WHOLE = 1.4e-9;
  private static final double STRAY = 15e-12;
  private static final double STRAY_HALF_WIDTH = 5e-12;
  private static final Quantity STRAY_QUANTITY =
      new Quantity(STRAY, STRAY_HALF_WIDTH / Math.sqrt(3), "F");

  @Test
  void forwardMapAgreesWithACableOfSlices() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int draw = 0; draw < 40; draw++) {
      int n = 2 + random.nextInt(8);
      boolean held = random.nextBoolean();
      double metal = 0.2 * random.nextDouble();
      SlicedCable cable = new SlicedCable(n, held, WHOLE, metal, 0, random);
      double[] reach = whole(n);
      for (int i = 0; i < n; i++) {
        // On the edge of a slice.
        reach[i] =
            random.nextBoolean()
                ? 1
                : random.nextInt(1, SlicedCable.SLICES) * 1.0 / SlicedCable.SLICES;
      }
      double[][] matrix = new CutCable(n, held).matrix(reach, metal);
      for (int i = 0; i < n; i++) {
        assertThat(WHOLE * matrix[i][i])
            .as("seed=%d draw=%d conductor=%d", SEED, draw, i)
            .isCloseTo(cable.farads(reach, i), within(1e-6 * WHOLE));
      }
      double both = matrix[0][0] + matrix[1][1] + 2 * matrix[0][1];
      assertThat(WHOLE * both).isCloseTo(cable.farads(reach, 0, 1), within(1e-6 * WHOLE));
    }
  }

  /**
   * The textbook's d = L C1/(C1 + C2), C1 and C2 from the two ends, and d = L C/C_sound (both from
   * memory): the first holds exactly, the second but for what a fellow loses to the floating part,
   * (1 − x)/(n − 1)² of it without metal.
   */
  @Test
  void agreesWithTheTextbookWhereBothApply() {
    for (int n : new int[] {3, 5, 9, 16}) {
      for (double x : new double[] {0.1, 0.37, 0.8}) {
        CutCable cable = new CutCable(n, true);
        double near = cable.matrix(cutAt(n, x), 0)[0][0];
        double far = cable.matrix(cutAt(n, 1 - x), 0)[0][0];
        assertThat(near / (near + far)).isCloseTo(x, within(1e-12));
        double sound = cable.matrix(cutAt(n, x), 0)[1][1];
        assertThat(near / sound)
            .isCloseTo(x / (1 - (1 - x) / ((n - 1.0) * (n - 1))), within(1e-12));
        Map<Integer, Quantity> place =
            new BreakPlace(cable, new Quantity(0, 0, "F"))
                .places(charged(n, i -> WHOLE * cable.matrix(cutAt(n, x), 0.07)[i][i]), List.of(0));
        assertThat(place.get(0).value()).isCloseTo(x, within(1e-3));
      }
    }
  }

  /** Coverage over 3 to 16 conductors, 10 to 40 m, one or two broken, M clipped or not. */
  @Test
  void truthLiesWithinTwoUncertainties() {
    // Rectangular contributions lie within 2 u more often than normal ones; where conductors are
    // more alike than the prior has it, still more.
    coverage(0.01, 0.90, 0.99);
    coverage(0.02, 0.90, 0.98);
    coverage(0.05, 0.90, 0.98);
  }

  private static void coverage(double spread, double least, double most) {
    SplittableRandom random = new SplittableRandom(SEED);
    int inside = 0;
    List<Double> errors = new ArrayList<>();
    for (int draw = 0; draw < DRAWS; draw++) {
      int n = 3 + random.nextInt(14);
      List<Integer> cut = n > 3 && random.nextInt(3) == 0 ? List.of(0, 1) : List.of(0);
      boolean held = random.nextBoolean();
      double whole = 71e-12 * (10 + 30 * random.nextDouble());
      SlicedCable cable =
          new SlicedCable(n, held, whole, 0.14 * random.nextDouble(), spread, random);
      double[] reach = whole(n);
      cut.forEach(c -> reach[c] = 0.02 + 0.96 * random.nextDouble());
      List<Charged> charged =
          charged(
              n,
              i ->
                  cable.farads(reach, i)
                      + STRAY
                      + STRAY_HALF_WIDTH * (2 * random.nextDouble() - 1));
      Map<Integer, Quantity> found =
          new BreakPlace(new CutCable(n, held), STRAY_QUANTITY).places(charged, cut);
      for (int c : cut) {
        double error = Math.abs(found.get(c).value() - reach[c]);
        errors.add(error);
        inside += error <= 2 * found.get(c).u() ? 1 : 0;
      }
    }
    errors.sort(null);
    double share = (double) inside / errors.size();
    System.out.printf(
        Locale.ROOT,
        "seed %d  spread %.0f %%  places %d  median error %.4f of the run  inside 2 u %.3f%n",
        SEED,
        100 * spread,
        errors.size(),
        errors.get(errors.size() / 2),
        share);
    double n = errors.size();
    assertThat(share)
        .isBetween(
            least - 3 * Math.sqrt(least * (1 - least) / n),
            most + 3 * Math.sqrt(most * (1 - most) / n));
  }

  /** One that touches a fellow is charged with it. */
  @Test
  void aClusterPlacesItsBrokenConductor() {
    int n = 6;
    double[][] matrix = new CutCable(n, true).matrix(cutAt(n, 0.4), BreakPlace.METAL_SHARE);
    List<Charged> charged = new ArrayList<>();
    double both = matrix[0][0] + matrix[1][1] + 2 * matrix[0][1];
    charged.add(new Charged(List.of(0, 1), new Quantity(WHOLE * both + 2 * STRAY, 1e-13, "F")));
    for (int i = 2; i < n; i++) {
      charged.add(new Charged(List.of(i), new Quantity(WHOLE * matrix[i][i] + STRAY, 1e-13, "F")));
    }
    BreakPlace place = new BreakPlace(new CutCable(n, true), STRAY_QUANTITY);
    Quantity found = place.places(charged, List.of(0)).get(0);
    assertThat(found.value()).isCloseTo(0.4, within(1e-3));
    Quantity expected = place.expected(List.of(0, 1), WHOLE, cutAt(n, 0.4), BreakPlace.PAIR_SPREAD);
    assertThat(expected.value()).isCloseTo(WHOLE * both + 2 * STRAY, within(1e-18));
    assertThat(expected.u()).isBetween(1e-12, 2e-11);
  }

  @Test
  void withoutAWholeFellowNothingIsSaid() {
    BreakPlace place = new BreakPlace(new CutCable(3, true), STRAY_QUANTITY);
    assertThat(place.places(charged(3, i -> 7e-10), List.of(0, 1, 2))).isEmpty();
    assertThat(place.places(charged(3, i -> 7e-10), List.of())).isEmpty();
  }

  private static List<Charged> charged(int n, IntToDoubleFunction farads) {
    List<Charged> charged = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      charged.add(new Charged(List.of(i), new Quantity(farads.applyAsDouble(i), 3e-13, "F")));
    }
    return charged;
  }

  private static double[] whole(int n) {
    double[] reach = new double[n];
    Arrays.fill(reach, 1);
    return reach;
  }

  private static double[] cutAt(int n, double x) {
    double[] reach = whole(n);
    reach[0] = x;
    return reach;
  }
}
