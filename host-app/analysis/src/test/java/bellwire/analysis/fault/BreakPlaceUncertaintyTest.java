package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.BreakPlace.Charged;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.api.Test;

/**
 * How well a place is known, by the sums of theory (28) and (29) over readings that fit exactly;
 * and where a place ends.
 */
class BreakPlaceUncertaintyTest {
  private static final double WHOLE = 1.4e-9;
  private static final double METAL = 0.07;
  private static final double U_METAL = 0.04;
  private static final double U_READ = 2e-12;
  private static final Quantity STRAY = new Quantity(15e-12, 2.9e-12, "F");
  private static final double STEP = 1e-5;

  /** A cable, what is charged, and where it is cut: first ln of the whole, share to metal. */
  private record Cut(int n, List<List<Integer>> together, List<Integer> cut) {
    double[] reach(double[] at) {
      double[] reach = new double[n];
      Arrays.fill(reach, 1);
      for (int i = 0; i < cut.size(); i++) {
        reach[cut.get(i)] = at[i + 2];
      }
      return reach;
    }

    /** Theory (27). */
    double farads(List<Integer> own, double[] at) {
      double[][] matrix = new CutCable(n, true).matrix(reach(at), at[1]);
      double sum = 0;
      for (int i : own) {
        for (int j : own) {
          sum += matrix[i][j];
        }
      }
      return own.size() * STRAY.value() + WHOLE * Math.exp(at[0]) * sum;
    }

    /** Each pair's own deviation is in both readings that it belongs to. */
    private DMatrixRMaj covariance(double[] at, double spread) {
      double[] x = reach(at);
      DMatrixRMaj sum = new DMatrixRMaj(together.size(), together.size());
      for (int r = 0; r < together.size(); r++) {
        int ports = together.get(r).size();
        sum.add(r, r, U_READ * U_READ + ports * STRAY.u() * STRAY.u());
        for (int i : together.get(r)) {
          sum.add(r, r, Math.pow(spread * WHOLE * METAL * x[i], 2));
        }
      }
      for (int i = 0; i < n; i++) {
        for (int j = i + 1; j < n; j++) {
          double pair = spread * WHOLE * (1 - METAL) / (n - 1) * Math.min(x[i], x[j]);
          List<Integer> seen = new ArrayList<>();
          for (int r = 0; r < together.size(); r++) {
            if (together.get(r).contains(i) != together.get(r).contains(j)) {
              seen.add(r);
            }
          }
          for (int r : seen) {
            seen.forEach(s -> sum.add(r, s, pair * pair));
          }
        }
      }
      return sum;
    }

    /** Of the first place. */
    double u(double spread, double[] at) {
      DMatrixRMaj slopes = new DMatrixRMaj(together.size(), at.length);
      for (int p = 0; p < at.length; p++) {
        double[] above = at.clone();
        double[] below = at.clone();
        above[p] += STEP;
        below[p] -= STEP;
        for (int r = 0; r < together.size(); r++) {
          double rise = farads(together.get(r), above) - farads(together.get(r), below);
          slopes.set(r, p, rise / (2 * STEP));
        }
      }
      DMatrixRMaj weights = covariance(at, spread);
      CommonOps_DDRM.invert(weights);
      DMatrixRMaj weighed = new DMatrixRMaj(together.size(), at.length);
      CommonOps_DDRM.mult(weights, slopes, weighed);
      DMatrixRMaj normal = new DMatrixRMaj(at.length, at.length);
      CommonOps_DDRM.multTransA(slopes, weighed, normal);
      normal.add(1, 1, 1 / (U_METAL * U_METAL));
      for (int p = 2; p < at.length; p++) {
        normal.add(p, p, 1 / (0.5 * 0.5));
      }
      CommonOps_DDRM.invert(normal);
      return Math.sqrt(normal.get(2, 2));
    }

    Map<Integer, Quantity> places(double... x) {
      double[] at = point(x);
      List<Charged> charged =
          together.stream()
              .map(own -> new Charged(own, new Quantity(farads(own, at), U_READ, "F")))
              .toList();
      return new BreakPlace(new CutCable(n, true), STRAY).places(charged, cut);
    }

    static double[] point(double... x) {
      double[] at = new double[x.length + 2];
      at[1] = METAL;
      System.arraycopy(x, 0, at, 2, x.length);
      return at;
    }
  }

  private static List<List<Integer>> each(int from, int n) {
    List<List<Integer>> single = new ArrayList<>();
    for (int i = from; i < n; i++) {
      single.add(List.of(i));
    }
    return single;
  }

  /**
   * Nothing is left of the readings, so that three rounds leave (3/(3 + ν))^(3/2) of the prior
   * spread of 2 %/√3, but a tenth of 2 % at the least; then Student's (3 + ν)/(1 + ν).
   */
  private static void knownAsWellAsItsSumsSay(Cut cut, int freedom, double... x) {
    double share = Math.pow(3 / (3.0 + freedom), 1.5);
    double spread = Math.max(0.02 / Math.sqrt(3) * share, 0.002);
    double widened = spread * Math.sqrt((3.0 + freedom) / (1 + freedom));
    Quantity said = cut.places(x).get(0);
    assertThat(said).isNotNull();
    double known = cut.u(widened, Cut.point(x));
    assertThat(said.value()).isCloseTo(x[0], within(0.01 * known));
    assertThat(said.u()).isCloseTo(known, within(0.002 * known));
  }

  @Test
  void aPlaceIsKnownAsWellAsTheReadingsAndTheSpreadTell() {
    knownAsWellAsItsSumsSay(new Cut(5, each(0, 5), List.of(0)), 3, 0.5);
    knownAsWellAsItsSumsSay(new Cut(3, each(0, 3), List.of(0)), 1, 0.5);
    knownAsWellAsItsSumsSay(new Cut(16, each(0, 16), List.of(0)), 14, 0.5);
  }

  /** Each place takes a reading away from what tells the spread. */
  @Test
  void twoPlacesLeaveLessToTellTheSpread() {
    knownAsWellAsItsSumsSay(new Cut(6, each(0, 6), List.of(0, 1)), 3, 0.5, 0.7);
  }

  /** Inside a cluster a pair's deviation doesn't show. */
  @Test
  void aClusterIsKnownByItsOwnSums() {
    List<List<Integer>> together = new ArrayList<>(List.of(List.of(0, 1)));
    together.addAll(each(2, 6));
    knownAsWellAsItsSumsSay(new Cut(6, together, List.of(0)), 3, 0.5);
  }

  /** It takes no reading away, either: of four readings one is the whole's and one the place's. */
  @Test
  void aCutConductorThatWasNotReadIsNotPlaced() {
    List<List<Integer>> together = new ArrayList<>(List.of(List.of(0)));
    together.addAll(each(2, 5));
    Cut cut = new Cut(5, together, List.of(0, 1));
    assertThat(cut.places(0.4, 0.5)).containsOnlyKeys(0);
    knownAsWellAsItsSumsSay(cut, 2, 0.4, 0.5);
  }

  /** The stub's own part of the pair's spread, and of metal's; each port's stray. */
  @Test
  void whatAChargeShouldShowHasTheSpreadOfItsPairs() {
    double[] at = Cut.point(0.4);
    Cut cut = new Cut(6, List.of(List.of(0, 1)), List.of(0));
    Quantity said =
        new BreakPlace(new CutCable(6, true), STRAY)
            .expected(List.of(0, 1), WHOLE, cut.reach(at), 0.03);
    double spread = 0.03 / Math.sqrt(3) * WHOLE;
    double pair = spread * 0.93 / 5;
    double metal = spread * 0.07;
    double square = 4 * pair * pair * (0.16 + 1) + metal * metal * (0.16 + 1);
    assertThat(said.value()).isCloseTo(cut.farads(List.of(0, 1), at), within(1e-20));
    assertThat(said.u()).isCloseTo(Math.sqrt(square + 2 * STRAY.u() * STRAY.u()), within(1e-18));
  }

  private static Map<Integer, Quantity> read(double stub, double... fellows) {
    List<Charged> charged = new ArrayList<>();
    charged.add(new Charged(List.of(0), new Quantity(stub, U_READ, "F")));
    for (int i = 0; i < fellows.length; i++) {
      charged.add(new Charged(List.of(i + 1), new Quantity(fellows[i], U_READ, "F")));
    }
    return new BreakPlace(new CutCable(fellows.length + 1, true), STRAY)
        .places(charged, List.of(0));
  }

  /** More than a whole conductor, less than a port without any. */
  @Test
  void aPlaceLiesOnTheRun() {
    Quantity far = read(1.5e-9, 1.4e-9, 1.4e-9, 1.4e-9).get(0);
    assertThat(far).isNotNull();
    assertThat(far.value()).isBetween(0.9999, 1.0);
    Quantity near = read(1e-12, 1.4e-9, 1.4e-9, 1.4e-9).get(0);
    assertThat(near).isNotNull();
    assertThat(near.value()).isZero();
  }

  /** Fellows that show no more than a port's stray capacitance tell nothing. */
  @Test
  void withoutCopperOnItsFellowsNoPlaceIsSaid() {
    assertThat(read(7e-10, 14e-12, 14e-12, 14e-12)).isEmpty();
    assertThat(read(7e-10, 15e-12, 15e-12, 15e-12)).isEmpty();
  }

  @Test
  void fellowsThatScatterMakeAPlaceLessCertain() {
    Quantity alike = read(7e-10, 1.4e-9, 1.4e-9, 1.4e-9, 1.4e-9).get(0);
    Quantity unlike = read(7e-10, 1.3e-9, 1.35e-9, 1.45e-9, 1.5e-9).get(0);
    assertThat(alike).isNotNull();
    assertThat(unlike).isNotNull();
    assertThat(unlike.u()).isGreaterThan(3 * alike.u());
  }
}
