package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.attached.LoadFit.Candidate;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.SmallBoard;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/**
 * The closed forms of theory (42) against the circuit's differential equation, followed in steps of
 * a microsecond (the midpoint rule): a winding, iron across it or not, and a capacitor.
 */
class LoadModelsTest {
  private static final BoardModel BOARD = SmallBoard.MODEL;
  private static final double STEP = 1e-6;

  /** Sources' volts behind ohms, feeding and dying away. */
  private static final double VOLTS = 2.0;

  private static final double FALL_OHMS = BOARD.lowReferenceOhms() + 2 * BOARD.pathOhms();
  private static final double LOOP_OHMS = BOARD.limiterOhms() + FALL_OHMS;

  /** One state, its slope under a source, and the current and volts that it shows. */
  private abstract static class Circuit {
    double state;

    abstract double slope(double state, double volts, double ohms);

    abstract double amps(double state, double volts, double ohms);

    private double mean(double from, double width, double volts, double ohms) {
      double sum = 0;
      int n = (int) Math.round(width / STEP);
      follow(from, volts, ohms);
      for (int k = 0; k < n; k++) {
        double before = amps(state, volts, ohms);
        follow(STEP, volts, ohms);
        sum += (before + amps(state, volts, ohms)) / 2;
      }
      return sum / n;
    }

    private void follow(double seconds, double volts, double ohms) {
      int n = (int) Math.floor(seconds / STEP);
      for (int k = 0; k <= n; k++) {
        double dt = k < n ? STEP : seconds - n * STEP;
        double middle = state + slope(state, volts, ohms) * dt / 2;
        state += slope(middle, volts, ohms) * dt;
      }
    }

    double rise(double from) {
      state = 0;
      return mean(from, LoadLook.INSTANT_SECONDS, VOLTS, LOOP_OHMS);
    }

    double fall(double from) {
      state = 0;
      follow(2 * LoadLook.CHARGED_SECONDS, VOLTS, LOOP_OHMS);
      return mean(from, LoadLook.INSTANT_SECONDS, 0, FALL_OHMS);
    }

    double steady(double from) {
      state = 0;
      return mean(from, LoadLook.QUICK_SECONDS, VOLTS, LOOP_OHMS);
    }
  }

  private static Circuit winding(double r, double h, double k) {
    return new Circuit() {
      @Override
      double slope(double i, double volts, double ohms) {
        return (across(i, volts, ohms) - r * i) / h;
      }

      @Override
      double amps(double i, double volts, double ohms) {
        return i + across(i, volts, ohms) / k;
      }

      private double across(double i, double volts, double ohms) {
        return (volts - ohms * i) / (1 + ohms / k);
      }
    };
  }

  /** The current that comes back counts as positive, as in a look. */
  private static Circuit capacitor(double c) {
    return new Circuit() {
      @Override
      double slope(double v, double volts, double ohms) {
        return (volts - v) / ohms / c;
      }

      @Override
      double amps(double v, double volts, double ohms) {
        return (volts - v) / ohms;
      }
    };
  }

  private static void agrees(double[] row, Circuit circuit) {
    int at = 0;
    double fullAmps = VOLTS / LOOP_OHMS;
    for (double from : LoadLook.RISE_SECONDS) {
      assertThat(row[at++])
          .as("rise " + from)
          .isCloseTo(circuit.rise(from), within(1e-4 * fullAmps));
    }
    for (double from : LoadLook.FALL_SECONDS) {
      assertThat(row[at++])
          .as("fall " + from)
          .isCloseTo(-circuit.fall(from), within(1e-3 * fullAmps));
    }
    double steady = circuit.steady(LoadLook.STEADY_SECONDS);
    assertThat(row[at]).as("steady").isCloseTo(steady, within(1e-3 * fullAmps));
    assertThat(row[at + 2]).isEqualTo(row[at]);
    assertThat(row[at + 3]).isEqualTo(row[at + 1]);
  }

  /** Short time constants, so that what is called steady is. */
  @Test
  void aWindingFollowsItsEquation() {
    LoadModels models = new LoadModels(BOARD, false);
    for (double[] w : new double[][] {{16, 0.25, 1e9}, {16, 0.25, 3000}, {200, 2.0, 1e4}}) {
      double[] row = models.winding(w[0], w[1], w[2]);
      // A fall's current goes on as it did and passes the low reference backwards.
      agrees(row, falling(winding(w[0], w[1], w[2]), w[2]));
      double rest = 1 / (1 / w[0] + 1 / w[2]);
      assertThat(row[row.length - 3])
          .isCloseTo(VOLTS * rest / (LOOP_OHMS + rest) / LOOP_OHMS, within(1e-9));
    }
  }

  /** While it dies the loop's current is what the winding does not lead through its own iron. */
  private static Circuit falling(Circuit winding, double k) {
    return new Circuit() {
      @Override
      double slope(double i, double volts, double ohms) {
        return winding.slope(i, volts, ohms);
      }

      @Override
      double amps(double i, double volts, double ohms) {
        return volts == 0 ? i * k / (k + ohms) : winding.amps(i, volts, ohms);
      }
    };
  }

  @Test
  void aCapacitorFollowsItsEquation() {
    LoadModels models = new LoadModels(BOARD, false);
    for (double c : new double[] {0.1e-6, 1e-6, 4.7e-6, 47e-6}) {
      agrees(models.capacitor(c), capacitor(c));
    }
  }

  @Test
  void aDiodeConductsOneWayAndAResistanceBoth() {
    LoadModels models = new LoadModels(BOARD, false);
    double[] diode = models.diode(0.62, false);
    double[] turned = models.diode(0.62, true);
    double on = (VOLTS - 0.62) / LOOP_OHMS;
    int n = diode.length;
    assertThat(diode[0]).isCloseTo(on, within(1e-12));
    assertThat(turned[0]).isZero();
    assertThat(diode[n - 4]).isCloseTo(on, within(1e-12));
    assertThat(diode[n - 2]).isZero();
    assertThat(turned[n - 4]).isZero();
    assertThat(turned[n - 2]).isCloseTo(on, within(1e-12));
    double blocked = VOLTS * BOARD.dividerOhms() / (BOARD.dividerOhms() + LOOP_OHMS) / LOOP_OHMS;
    assertThat(diode[n - 3]).isCloseTo(0.62 / LOOP_OHMS, within(1e-12));
    assertThat(diode[n - 1]).isCloseTo(blocked, within(1e-12));
    assertThat(turned[n - 3]).isCloseTo(blocked, within(1e-12));
    double[] plain = models.resistance(100);
    assertThat(plain[0]).isCloseTo(VOLTS / (LOOP_OHMS + 100), within(1e-12));
    assertThat(plain[n - 5]).isZero();
    assertThat(plain[n - 1]).isCloseTo(plain[0] * 100 / LOOP_OHMS, within(1e-12));
  }

  private static List<Candidate> fit(double[] row) {
    int rises = LoadLook.RISE_SECONDS.length;
    int falls = LoadLook.FALL_SECONDS.length;
    double[] rise = Arrays.copyOf(row, rises);
    double[] fall = Arrays.copyOfRange(row, rises, rises + falls);
    int at = rises + falls;
    LoadEvidence evidence =
        new LoadEvidence(
            rise, fall, row[at], row[at + 1] * LOOP_OHMS, row[at + 2], row[at + 3] * LOOP_OHMS);
    return new LoadFit(BOARD, evidence, false).candidates();
  }

  private static void isTold(double[] row, LoadKind kind, double value) {
    Candidate first = fit(row).get(0);
    assertThat(first.kind()).isEqualTo(kind);
    assertThat(first.value()).isCloseTo(value, within(0.02 * value));
  }

  @Test
  void eachKindIsToldByWhatItShows() {
    LoadModels models = new LoadModels(BOARD, false);
    isTold(models.winding(16, 0.25, 1e9), LoadKind.COIL, 0.25);
    isTold(models.winding(120, 1.2, 1e9), LoadKind.COIL, 1.2);
    isTold(models.winding(0.6, 0.05, 1e9), LoadKind.SECONDARY, 0.05);
    isTold(models.capacitor(4.7e-6), LoadKind.CAPACITOR, 4.7e-6);
    isTold(models.capacitor(0.2e-6), LoadKind.CAPACITOR, 0.2e-6);
    isTold(models.diode(0.62, false), LoadKind.DIODE, 0.62);
    isTold(models.resistance(0.5), LoadKind.RESISTANCE, 0.5);
    isTold(models.resistance(5000), LoadKind.RESISTANCE, 5000);
    assertThat(fit(models.diode(0.62, false)).get(0).turned()).isFalse();
    assertThat(fit(models.diode(0.62, true)).get(0).turned()).isTrue();
  }

  @Test
  void whatFitsNoKindIsUnknown() {
    double[] row = new LoadModels(BOARD, false).resistance(500);
    row[row.length - 2] *= 0.5; // conducts half as well the other way
    row[1] *= 0.6;
    assertThat(fit(row).get(0).kind()).isEqualTo(LoadKind.UNKNOWN);
  }

  /** All shares of what may be there; densities over the logarithm of a range. */
  @Test
  void priorsAreShares() {
    double sum = 0;
    for (LoadKind kind : LoadKind.values()) {
      sum += LoadPriors.share(kind);
    }
    assertThat(sum).isCloseTo(1, within(1e-12));
    for (LoadPriors.Range range :
        List.of(LoadPriors.COIL_OHMS, LoadPriors.FARADS, LoadPriors.PLAIN_OHMS)) {
      assertThat(integral(x -> Math.exp(range.logDensity(Math.exp(x))), range))
          .as(range.toString())
          .isBetween(1.0, 1.2); // and the edges, a normal's tails
      assertThat(range.logDensity(range.low() / 2)).isLessThan(range.logDensity(range.low()) - 5);
      assertThat(range.logDensity(range.high() * 2)).isLessThan(range.logDensity(range.high()) - 5);
    }
  }

  private static double integral(DoubleUnaryOperator f, LoadPriors.Range range) {
    double low = Math.log(range.low()) - 2;
    double high = Math.log(range.high()) + 2;
    int n = 4000;
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += f.applyAsDouble(low + (k + 0.5) * (high - low) / n) * (high - low) / n;
    }
    return sum;
  }
}
