package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.junit.jupiter.api.Test;

/**
 * The fit of one conductor that nothing joins, on both plugs, where all is linear: readings of sums
 * of normal quantities are normal, so that weight, parameters and what is left follow from their
 * covariance S in closed form. Rasmussen and Williams, Gaussian Processes, (2.8) and A.6 (from
 * memory).
 */
class GroupFitTest {
  private static final double RUN = 1;
  private static final double U_RUN = 0.1;
  private static final double CONTACT = 0.4;
  private static final double U_CONTACT = 0.05;
  private static final double ARM = 50;
  private static final double U_ARM = 0.002;
  private static final double FELLOW = 2;
  private static final double U_TIE = 0.07;
  private static final double U_CODED = 0.12;

  /** Dividers of a gigohm take 54²/10⁹ = 3 microohms off a reading of 54 ohm. */
  private static final double NEAR = 1e-4;

  /** What the readings lie off their expectation, and the inverse of S. */
  private final double tieOff = 0.2;

  private final double codedOff = -0.15;
  private final double sTie = sq(U_TIE) + sq(U_RUN) + 2 * sq(U_CONTACT);
  private final double sCoded = sq(U_CODED) + sq(U_RUN) + 2 * sq(U_CONTACT) + sq(ARM * U_ARM);
  private final double shared = sq(U_RUN) + sq(U_CONTACT);
  private final double det = sTie * sCoded - sq(shared);
  private final double tiePull = (sCoded * tieOff - shared * codedOff) / det;
  private final double codedPull = (sTie * codedOff - shared * tieOff) / det;

  private final List<Ratio> ratios =
      List.of(
          reading(0, RUN + 2 * CONTACT + FELLOW + tieOff, U_TIE),
          reading(1, RUN + 2 * CONTACT + FELLOW + ARM + codedOff, U_CODED));

  private static double sq(double x) {
    return x * x;
  }

  private static Ratio reading(int stage, double ohms, double u) {
    return new Ratio(stage, 0, 1, 0, 1, new BitSet(), ohms, u);
  }

  private GroupFit fit() {
    Quantity run = Quantity.ohms(RUN, U_RUN);
    double[] arms = {33, ARM};
    Setting setting = new Setting(2, -1, 3.5, 100, 1e9, run, 1e-9, CONTACT, U_CONTACT, arms, U_ARM);
    List<Stage> stages =
        List.of(
            new Stage(Stage.Kind.TIE, new double[] {Double.NaN, FELLOW}),
            new Stage(Stage.Kind.CODED, new double[] {Double.NaN, FELLOW}));
    Surroundings surroundings =
        new Surroundings(setting, stages, new double[2][2], List.of(0), ratios);
    Supposition alone = Supposition.bridges(List.of()).at(Map.of(0, 1));
    GroupFit fit = GroupFit.of(new GroupModel(surroundings, ratios, alone), ratios);
    assertThat(fit).isNotNull();
    return fit;
  }

  /** ln N(off; 0, S) but for the readings' own u and 2π, which all suppositions share. */
  @Test
  void theWeightIsTheDensityOfTheReadings() {
    double squares = tieOff * tiePull + codedOff * codedPull;
    double expected = -squares / 2 - Math.log(det / sq(U_TIE * U_CODED)) / 2;
    assertThat(fit().logEvidence()).isCloseTo(expected, within(NEAR));
  }

  /** What a reading keeps of its deviation is u² S⁻¹ of all. */
  @Test
  void chiSquaredIsOfTheReadingsAlone() {
    assertThat(fit().chiSquared())
        .isCloseTo(sq(U_TIE * tiePull) + sq(U_CODED * codedPull), within(NEAR));
  }

  /** Both readings pull at what they share; each quantity keeps σ² − σ⁴ S⁻¹ of its variance. */
  @Test
  void theRunMovesByItsShareAndNarrows() {
    Quantity run = fit().parameter(0, "ohm");
    assertThat(run.value()).isCloseTo(RUN + sq(U_RUN) * (tiePull + codedPull), within(1e-6));
    double narrowed = sq(sq(U_RUN)) * (sTie + sCoded - 2 * shared) / det;
    assertThat(run.u()).isCloseTo(Math.sqrt(sq(U_RUN) - narrowed), within(1e-6));
    assertThat(run.unit()).isEqualTo("ohm");
  }

  /** e^x with u(x) of it, to first order; never said to be worse than twice its size. */
  @Test
  void aLogarithmIsSaidAsItsNumber() {
    DMatrixRMaj covariance = new DMatrixRMaj(new double[][] {{0.01, 0}, {0, 25}});
    GroupFit fit = new GroupFit(new double[] {Math.log(5), 0}, covariance, 0, 0);
    assertThat(fit.exponential(0, "ohm").value()).isCloseTo(5, within(1e-12));
    assertThat(fit.exponential(0, "ohm").u()).isCloseTo(0.5, within(1e-12));
    assertThat(fit.exponential(1, "ohm")).isEqualTo(Quantity.ohms(1, 2));
  }
}
