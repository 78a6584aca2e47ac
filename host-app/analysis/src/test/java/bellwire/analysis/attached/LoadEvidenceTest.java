package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.attached.LoadFit.Candidate;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.SmallBoard;
import java.util.Arrays;
import java.util.function.DoubleFunction;
import org.junit.jupiter.api.Test;

/**
 * Evidence by Laplace's method: the prior's share and density at the peak, the misfit there, and
 * the peak's width as a share of the range. Theory (43).
 */
class LoadEvidenceTest {
  private static final BoardModel BOARD = SmallBoard.MODEL;
  private static final LoadModels MODELS = new LoadModels(BOARD, false);
  private static final double LOOP_OHMS = 766 + 100 + 2 * 15.9;
  private static final double FALL_OHMS = 100 + 2 * 15.9;
  private static final double FULL_AMPS = 2 / LOOP_OHMS;
  private static final int RISES = 3;
  private static final int FALLS = 4;

  private static LoadFit fit(double[] row) {
    double[] rise = Arrays.copyOf(row, RISES);
    double[] fall = Arrays.copyOfRange(row, RISES, RISES + FALLS);
    int at = RISES + FALLS;
    return new LoadFit(
        BOARD,
        new LoadEvidence(
            rise, fall, row[at], row[at + 1] * LOOP_OHMS, row[at + 2], row[at + 3] * LOOP_OHMS),
        false);
  }

  private static Candidate of(double[] row, LoadKind kind, boolean turned) {
    return fit(row).candidates().stream()
        .filter(c -> c.kind() == kind && c.turned() == turned)
        .findFirst()
        .orElseThrow();
  }

  /**
   * 13 mV of hum in the loop of the time; 3 µA at rest; 1.2 % of the reading, or of 3 % of the full
   * current.
   */
  private static double sigma(int i, double amps) {
    double floor = i < RISES ? 13e-3 / LOOP_OHMS : i < RISES + FALLS ? 13e-3 / FALL_OHMS : 3e-6;
    return Math.hypot(floor, 0.012 * Math.max(Math.abs(amps), 0.03 * FULL_AMPS));
  }

  /** Uniform in the logarithm. */
  private static double density(double low, double high) {
    return -Math.log(Math.log(high / low));
  }

  @Test
  void aResistanceThatFitsHasItsPriorAlone() {
    double prior = Math.log(0.39) + density(1e-3, 1e8);
    assertThat(of(MODELS.resistance(100), LoadKind.RESISTANCE, false).logEvidence())
        .isCloseTo(prior, within(1e-9));
    assertThat(fit(MODELS.resistance(100)).ohms()).isCloseTo(100, within(1e-9));
  }

  /** Each reading off by some of its own uncertainties, one at a time. */
  @Test
  void aMisfitCountsInItsOwnUncertainty() {
    for (double ohms : new double[] {100, 1e5}) {
      double[] fits = MODELS.resistance(ohms);
      double best = of(fits, LoadKind.RESISTANCE, false).logEvidence();
      for (int i = 0; i < fits.length; i++) {
        if (i == RISES + FALLS || i == RISES + FALLS + 1) {
          continue; // what the resistance itself is taken from
        }
        double[] row = fits.clone();
        row[i] += 2.5e-4;
        double z = 2.5e-4 / sigma(i, row[i]);
        assertThat(of(row, LoadKind.RESISTANCE, false).logEvidence())
            .as("ohms=" + ohms + " reading " + i)
            .isCloseTo(best - 0.5 * z * z, within(1e-6 * z * z));
      }
    }
  }

  /** Four standard uncertainties each of eleven readings. */
  @Test
  void whatIsUnknownIsOffEverywhere() {
    assertThat(of(MODELS.resistance(100), LoadKind.UNKNOWN, false).logEvidence())
        .isCloseTo(Math.log(0.01) - 0.5 * 16 * 11, within(1e-9));
  }

  /** Normal about 0.62 V by 0.08 V, per unit of ln x at the mean; either way round by half. */
  @Test
  void aDiodesForwardVoltageIsExpectedWithinEightyMillivolts() {
    for (double volts : new double[] {0.54, 0.62, 0.74}) {
      double z = (volts - 0.62) / 0.08;
      double right =
          Math.log(0.05 / 2) - 0.5 * z * z + Math.log(0.62 / (0.08 * Math.sqrt(2 * Math.PI)));
      for (boolean turned : new boolean[] {false, true}) {
        Candidate diode = of(MODELS.diode(volts, turned), LoadKind.DIODE, turned);
        assertThat(diode.logEvidence()).as("volts=" + volts).isCloseTo(right, within(1e-6));
        assertThat(diode.value()).isCloseTo(volts, within(1e-9));
      }
    }
  }

  /** Width of the peak in ln x: the inverse root of the sum of (slope over uncertainty)². */
  private static double occam(double[] row, double x, DoubleFunction<double[]> model) {
    double h = 1e-4;
    double[] up = model.apply(x * Math.exp(h));
    double[] down = model.apply(x * Math.exp(-h));
    double sum = 0;
    for (int i = 0; i < row.length; i++) {
      double slope = (up[i] - down[i]) / (2 * h) / sigma(i, row[i]);
      sum += slope * slope;
    }
    return Math.log(Math.sqrt(2 * Math.PI / sum));
  }

  @Test
  void aCapacitorsEvidenceIsLaplaces() {
    for (double farads : new double[] {0.5e-6, 4.7e-6, 47e-6}) {
      double[] row = MODELS.capacitor(farads);
      Candidate capacitor = of(row, LoadKind.CAPACITOR, false);
      double right = Math.log(0.1) + density(20e-9, 200e-6) + occam(row, farads, MODELS::capacitor);
      assertThat(capacitor.value()).isCloseTo(farads, within(1e-4 * farads));
      assertThat(capacitor.logEvidence()).isCloseTo(right, within(1e-3));
    }
  }

  /** A current back of 10 µA, which no capacitor has at rest, costs its misfit and no more. */
  @Test
  void aMisfitDoesNotNarrowThePeak() {
    double[] row = MODELS.capacitor(1e-6);
    double fits = of(row, LoadKind.CAPACITOR, false).logEvidence();
    int back = RISES + FALLS + 2;
    row[back] += 10e-6;
    double z = 10e-6 / sigma(back, row[back]);
    assertThat(of(row, LoadKind.CAPACITOR, false).logEvidence())
        .isCloseTo(fits - 0.5 * z * z, within(1e-3));
  }

  /** One of seven cores, here 300 ohm beside the 16 ohm of the copper. */
  @Test
  void aCoilsEvidenceIsLaplacesWithItsCore() {
    double[] row = MODELS.winding(16, 0.25, 300);
    Candidate coil = of(row, LoadKind.COIL, false);
    double right =
        Math.log(0.3)
            + density(4, 400)
            + density(0.02, 3)
            - Math.log(7)
            + occam(row, 0.25, h -> MODELS.winding(16, h, 300));
    assertThat(coil.value()).isCloseTo(0.25, within(1e-4));
    assertThat(coil.logEvidence()).isCloseTo(right, within(1e-3));
    Candidate secondary = of(row, LoadKind.SECONDARY, false);
    assertThat(secondary.logEvidence()).isLessThan(coil.logEvidence() - 10);
  }

  /** Ranges end softly: what lies a little outside is still found where it is. */
  @Test
  void aLittleOutsideTheRangeIsFoundWhereItIs() {
    double[] large = MODELS.winding(60, 5, 1e9);
    assertThat(of(large, LoadKind.COIL, false).value()).isCloseTo(5, within(0.05));
    double[] small = MODELS.winding(60, 0.015, 1e9);
    assertThat(of(small, LoadKind.COIL, false).value()).isCloseTo(0.015, within(1.5e-3));
  }

  /** Of no current at all, and of no voltage. */
  @Test
  void theResistanceAtRestIsBounded() {
    double[] none = new double[RISES + FALLS + 4];
    assertThat(fit(none).ohms()).isEqualTo(1e-3);
    double[] apart = none.clone();
    apart[RISES + FALLS + 1] = FULL_AMPS;
    assertThat(fit(apart).ohms()).isEqualTo(1e8);
  }
}
