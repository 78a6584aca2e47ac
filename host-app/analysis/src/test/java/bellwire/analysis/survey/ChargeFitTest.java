package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Charging through a resistor: published examples, and transients integrated step by step. */
class ChargeFitTest {
  private static final int GAIN = 2;
  private static final int CONVERSIONS = 24;
  private static final double WINDOW = 2.5e-3;
  private static final double START = 41 / 256e3;
  private static final BoardModel BOARD = IdealBoard.MODEL;

  /** Bird, Electrical Circuit Theory and Technology, chapter 17 (table fault-location/charging). */
  @Test
  void curveGivesBirdsVoltages() {
    Table table = ReferenceTables.load("fault-location/charging");
    Row first = table.row("problem", "17.01");
    double tau = first.number("farads") * first.number("ohms");
    assertThat(tau).isCloseTo(first.number("tauSeconds"), within(1e-12));
    assertVolts(first, "voltsAtTau", tau, tau);
    double half = first.number("halfValueSeconds");
    assertThat(volts(first, tau, half)).isCloseTo(first.number("volts") / 2, within(0.01));
    Row third = table.row("problem", "17.03");
    assertVolts(third, "voltsAt2s", third.number("tauSeconds"), 2);
    Row fourth = table.row("problem", "17.04");
    assertVolts(fourth, "voltsAt7ms", fourth.number("tauSeconds"), 7e-3);
  }

  private static void assertVolts(Row row, String column, double tau, double seconds) {
    assertThat(volts(row, tau, seconds))
        .as(row.text("problem"))
        .isCloseTo(row.number(column), within(0.51 * row.lastPlace(column)));
  }

  private static double volts(Row row, double tau, double seconds) {
    double narrow = 1e-6 * tau;
    ChargeCurve curve = new ChargeCurve(seconds - narrow / 2, narrow);
    return row.number("volts") * (1 - curve.lacking(0, tau));
  }

  /**
   * Conductors of 30 pF to 5 nF with the hum of 3 pF to 230 V, the converter's windows 12 µs late
   * and its clock 1 % fast: what is left is scale, common to all.
   */
  @Test
  void hasNoNeedToKnowStartFrequencyOrPhase() {
    Random random = new Random(11);
    double[] farads = {30e-12, 100e-12, 0.7e-9, 1.4e-9, 1.5e-9, 5e-9};
    ChargeFit fit = new ChargeFit(BOARD, GAIN);
    for (int i = 0; i < farads.length; i++) {
      double phase = 2 * Math.PI * random.nextDouble();
      fit.add(i, windows(), seen(farads[i], Double.POSITIVE_INFINITY, phase, 50.5, 12e-6, random));
    }
    fit.solve();
    for (int i = 0; i < farads.length; i++) {
      Quantity found = fit.farads(i);
      assertThat(found).as("farads=" + farads[i]).isNotNull();
      assertThat(Math.abs(found.value() - farads[i]))
          .as("farads=%s found=%s", farads[i], found)
          .isLessThanOrEqualTo(3.5 * found.u() + 1e-4 * farads[i]);
      // The shortest is over before the first window: 30 pF have a τ of 28 µs.
      double least = farads[i] < 50e-12 ? 5e-12 : 1.5e-12;
      assertThat(found.u()).isLessThan(Math.max(least, 0.003 * farads[i]));
    }
  }

  /** A leakage takes from the time constant what it takes from the voltage. */
  @Test
  void capacitanceBesideALeakage() {
    Random random = new Random(12);
    ChargeFit fit = new ChargeFit(BOARD, GAIN);
    fit.add(0, windows(), seen(1.4e-9, Double.POSITIVE_INFINITY, 1, 60, 0, random));
    fit.add(1, windows(), seen(1.4e-9, 300e3, 2, 60, 0, random));
    fit.add(2, windows(), seen(1.4e-9, 1e3, 2, 60, 0, random));
    fit.solve();
    assertThat(fit.farads(1).value()).isCloseTo(1.4e-9, within(3 * fit.farads(1).u()));
    assertThat(fit.farads(1).u()).isLessThan(2e-11);
    assertThat(fit.farads(2)).isNull();
  }

  /**
   * A far part behind a leakage made its conductor charge in two parts, which pulled the start of
   * all, and with it the short stub's capacitance.
   */
  @Test
  void aSlowFellowDoesNotMoveTheOthers() {
    ChargeFit plain = new ChargeFit(BOARD, GAIN);
    ChargeFit disturbed = new ChargeFit(BOARD, GAIN);
    for (ChargeFit fit : List.of(plain, disturbed)) {
      Random random = new Random(15);
      for (int i = 0; i < 5; i++) {
        double farads = i == 0 ? 150e-12 : 1.4e-9;
        double[] seen = seen(farads, Double.POSITIVE_INFINITY, i, 60, 0, random);
        for (int k = 0; k < CONVERSIONS && i == 4 && fit == disturbed; k++) {
          seen[k] -= 0.02 * Math.exp(-(START + (k + 0.5) * WINDOW) / 4e-3);
        }
        fit.add(i, windows(), seen);
      }
      fit.solve();
    }
    for (int i = 0; i < 4; i++) {
      Quantity before = plain.farads(i);
      assertThat(disturbed.farads(i).value()).isCloseTo(before.value(), within(before.u()));
    }
    assertThat(disturbed.farads(4).u()).isGreaterThan(10 * plain.farads(4).u());
  }

  /** More noise than the board's description says widens u and leaves the fit as it is. */
  @Test
  void aNoisierConverterIsOnlyNoisier() {
    Random random = new Random(16);
    ChargeFit fit = new ChargeFit(BOARD, GAIN);
    for (int i = 0; i < 6; i++) {
      double[] seen = seen(1.4e-9, Double.POSITIVE_INFINITY, i, 50, 0, random);
      for (int k = 0; k < CONVERSIONS; k++) {
        seen[k] += 9 * BOARD.noise().rms(GAIN, Probe.Pace.WAVE) * random.nextGaussian();
      }
      fit.add(i, windows(), seen);
    }
    fit.solve();
    for (int i = 0; i < 6; i++) {
      Quantity found = fit.farads(i);
      assertThat(found.value()).isCloseTo(1.4e-9, within(3.5 * found.u()));
      assertThat(found.u()).isBetween(1.3e-12, 1e-11);
    }
  }

  /** What is over before the first window is bounded, not read. */
  @Test
  void anEmptyPortIsBounded() {
    Random random = new Random(13);
    ChargeFit fit = new ChargeFit(BOARD, GAIN);
    fit.add(0, windows(), seen(1.4e-9, Double.POSITIVE_INFINITY, 1, 60, 0, random));
    fit.add(1, windows(), seen(12e-12, Double.POSITIVE_INFINITY, 2, 60, 0, random));
    fit.solve();
    Quantity found = fit.farads(1);
    assertThat(Math.abs(found.value() - 12e-12)).isLessThan(2 * found.u());
    assertThat(found.u()).isLessThan(15e-12);
  }

  /** Where theory (8) draws the line between an empty port and a stub. */
  @Test
  void presenceLimitIsWhereTheTheorySaysItIs() {
    ChargeCurve early = new ChargeCurve(START, 250e-6);
    double ohms =
        BOARD.checkHighOhms() * BOARD.dividerOhms() / (BOARD.checkHighOhms() + BOARD.dividerOhms());
    assertThat(early.lacking(0, 20e-12 * ohms)).isLessThan(1e-4);
    assertThat(early.lacking(0, 57e-12 * ohms)).isCloseTo(0.01, within(0.0005));
  }

  private static int[] windows() {
    return IntStream.range(0, CONVERSIONS).toArray();
  }

  /** The circuit's differential equation in steps of 0.5 µs, averaged over the windows. */
  private static double[] seen(
      double farads, double leakOhms, double phase, double hertz, double late, Random random) {
    double siemens =
        1 / (BOARD.checkHighOhms() + BOARD.limiterOhms()) + 1 / BOARD.dividerOhms() + 1 / leakOhms;
    double amps = BOARD.excitationVolts() / (BOARD.checkHighOhms() + BOARD.limiterOhms());
    double omega = 2 * Math.PI * hertz;
    DoubleUnaryOperator hum = t -> 3e-12 * omega * Math.sqrt(2) * 230 * Math.cos(omega * t + phase);
    double dt = 0.5e-6;
    double[] sums = new double[CONVERSIONS];
    int[] counts = new int[CONVERSIONS];
    double v = 0;
    double start = START + late;
    for (double t = 0; t < start + CONVERSIONS * WINDOW; t += dt) {
      double rate = siemens / farads;
      double drive = (amps + hum.applyAsDouble(t + dt / 2)) / siemens;
      double next = drive + (v - drive) * Math.exp(-rate * dt);
      int window = (int) Math.floor((t + dt / 2 - start) / WINDOW);
      if (window >= 0 && window < CONVERSIONS) {
        sums[window] += (v + next) / 2;
        counts[window]++;
      }
      v = next;
    }
    double[] volts = new double[CONVERSIONS];
    for (int k = 0; k < CONVERSIONS; k++) {
      double noise = BOARD.noise().rms(GAIN, Probe.Pace.WAVE);
      volts[k] = sums[k] / counts[k] + noise * random.nextGaussian();
    }
    return volts;
  }
}
