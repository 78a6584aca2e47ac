package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.ChargeModel.Common;
import bellwire.analysis.survey.ChargeModel.Solved;
import bellwire.analysis.survey.ChargeModel.Transient;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.junit.jupiter.api.Test;

/** What a fit of charging transients says, and how sure it says it is. */
class ChargeModelTest {
  private static final double OMEGA = 2 * Math.PI * 50;
  private static final double NOISE = 20e-6;
  private static final int N = 24;
  private static final int[] WINDOWS = IntStream.range(0, N).toArray();
  private static final double START = 41 / 256e3;

  /** ln ω off the mains, start in units of 10 µs, ln τ, volts, hum's cosine and sine. */
  private static double[] volts(double... p) {
    ChargeCurve curve = new ChargeCurve(START + p[1] * 10e-6, 2.5e-3);
    double w = OMEGA * Math.exp(p[0]);
    double[] volts = new double[N];
    for (int k = 0; k < N; k++) {
      double lacking = curve.lacking(k, Math.exp(p[2]));
      volts[k] =
          p[3] * (1 - lacking) + p[4] * (curve.cosine(k, w) - lacking) + p[5] * curve.sine(k, w);
    }
    return volts;
  }

  private static Transient begun(double[] volts, double... p) {
    Transient t = new Transient(0, WINDOWS, volts);
    t.tau = Math.exp(p[2]);
    t.linear = new double[] {p[3], p[4], p[5]};
    return t;
  }

  /** From a start that is off, 50.3 Hz and windows 8 µs late come out. */
  @Test
  void theParametersComeOut() {
    double[] right = {0.006, 0.8, Math.log(1.4e-3), 0.18, 0.02, -0.03};
    double[] off = {0, 0, Math.log(2e-3), 0.17, 0.01, -0.02};
    Solved solved =
        ChargeModel.solve(List.of(begun(volts(right), off)), Common.NOTHING, OMEGA, NOISE);
    double[] near = {1e-4, 0.02, 2e-4, 1e-5, 1e-4, 1e-4};
    for (int i = 0; i < right.length; i++) {
      assertThat(solved.point[i]).as("parameter " + i).isCloseTo(right[i], within(near[i]));
    }
    assertThat(solved.scatter).containsExactly(1);
  }

  /** GUM: the inverse of the normal matrix, the priors of ω, start and ln τ in it. */
  @Test
  void theUncertaintiesAreThoseOfTheNormalMatrix() {
    double[] p = {0, 0, Math.log(1.4e-3), 0.18, 0.02, -0.03};
    Solved solved = ChargeModel.solve(List.of(begun(volts(p), p)), Common.NOTHING, OMEGA, NOISE);
    DMatrixRMaj slopes = new DMatrixRMaj(N + 3, p.length);
    slopes.set(N, 0, 1 / 0.009); // 1.5 % of the oscillator, rectangular
    slopes.set(N + 1, 1, 1); // 10 µs
    slopes.set(N + 2, 2, 1 / 3.0);
    double h = 1e-5;
    for (int i = 0; i < p.length; i++) {
      double[] up = p.clone();
      double[] down = p.clone();
      up[i] += h;
      down[i] -= h;
      for (int k = 0; k < N; k++) {
        slopes.set(k, i, (volts(up)[k] - volts(down)[k]) / (2 * h) / NOISE);
      }
    }
    DMatrixRMaj covariance = new DMatrixRMaj(p.length, p.length);
    CommonOps_DDRM.multInner(slopes, covariance);
    CommonOps_DDRM.invert(covariance);
    for (int i = 0; i < p.length; i++) {
      double right = Math.sqrt(covariance.get(i, i));
      assertThat(solved.u(i)).as("parameter " + i).isCloseTo(right, within(1e-3 * right));
    }
    assertThat(solved.uStart()).isEqualTo(solved.u(1));
    assertThat(solved.common().logOmega()).isEqualTo(solved.point[0]);
    assertThat(solved.common().uLogOmega()).isEqualTo(solved.u(0));
    assertThat(solved.common().start()).isEqualTo(solved.point[1]);
    assertThat(solved.common().uStart()).isEqualTo(solved.u(1));
  }

  /** What is well known of frequency and start already, a transient does not move. */
  @Test
  void aSurePriorHolds() {
    double[] p = {0, 0, Math.log(1.4e-3), 0.18, 0.02, -0.03};
    Common sure = new Common(0.004, 1e-7, 0.5, 1e-6);
    Solved solved = ChargeModel.solve(List.of(begun(volts(p), p)), sure, OMEGA, NOISE);
    assertThat(solved.point[0]).isCloseTo(0.004, within(1e-5));
    assertThat(solved.point[1]).isCloseTo(0.5, within(1e-4));
    assertThat(solved.u(0)).isCloseTo(1e-7, within(1e-9));
    assertThat(solved.u(1)).isCloseTo(1e-6, within(1e-8));
  }

  /** Ripple of ±d is left over: 24 · d² over 20 degrees of freedom, and its fellow has none. */
  @Test
  void whatIsLeftOverIsEachTransientsOwn() {
    double[] p = {0, 0, Math.log(1.4e-3), 0.18, 0.02, -0.03};
    double[] rippled = volts(p);
    for (int k = 0; k < N; k++) {
      rippled[k] += (k % 2 == 0 ? 1 : -1) * 5 * NOISE;
    }
    List<Transient> both = List.of(begun(volts(p), p), begun(rippled, p));
    Solved solved = ChargeModel.solve(both, Common.NOTHING, OMEGA, NOISE);
    assertThat(solved.scatter[0]).isEqualTo(1);
    // A little of the ripple passes for a change of τ and start.
    assertThat(solved.scatter[1]).isBetween(5.2, 5 * Math.sqrt(24 / 20.0));
    Solved turned =
        ChargeModel.solve(List.of(both.get(1), both.get(0)), Common.NOTHING, OMEGA, NOISE);
    assertThat(turned.scatter[0]).isCloseTo(solved.scatter[1], within(1e-3));
    assertThat(turned.scatter[1]).isEqualTo(1);
  }

  private static final BoardModel BOARD = IdealBoard.MODEL;

  /** 2 V behind the check resistor of 10 Mohm and 766 ohm. */
  private static final double AMPS = 2.0 / (1e7 + 766);

  private static Quantity alone(double[] volts) {
    ChargeFit fit = new ChargeFit(BOARD, 2);
    fit.add(7, WINDOWS, volts);
    fit.solve();
    assertThat(fit.farads(6)).isNull();
    return fit.farads(7);
  }

  /**
   * C = τ·I/V: ln τ and V with what they have in common, the converter's offset of 5 µV, and the
   * open switches' 0.3 nA of some 0.2 µA, both rectangular; all but the latter by the scatter.
   */
  @Test
  void aCapacitanceIsAsSureAsItsTauAndItsVoltage() {
    double noise = BOARD.noise().rms(2, Probe.Pace.WAVE);
    for (double ripple : new double[] {0, 4 * noise}) {
      double[] p = {0, 0, Math.log(1.4e-3), 0.18, 0.002, -0.003};
      double[] volts = volts(p);
      for (int k = 0; k < N; k++) {
        volts[k] += (k % 2 == 0 ? 1 : -1) * ripple;
      }
      Solved solved = ChargeModel.solve(List.of(begun(volts, p)), Common.NOTHING, OMEGA, noise);
      double s = solved.scatter[0];
      double full = solved.point[3];
      double tau = s * solved.u(2);
      double end = Math.hypot(s * solved.u(3), 5e-6 / Math.sqrt(3)) / full;
      double common = -2 * s * s * solved.covariance.get(2, 3) / full;
      double source = 0.3e-9 / Math.sqrt(3) / AMPS;
      Quantity found = alone(volts);
      double relative = Math.sqrt(tau * tau + end * end + common + source * source);
      assertThat(found.value())
          .isCloseTo(Math.exp(solved.point[2]) * AMPS / full, within(1e-5 * found.value()));
      assertThat(found.u() / found.value())
          .as("ripple=" + ripple)
          .isCloseTo(relative, within(1e-5 * relative));
      assertThat(found.unit()).isEqualTo("F");
    }
  }

  /** Nothing lacks in the first window: less than what would show there at three times noise. */
  @Test
  void whatIsOverAtOnceIsBounded() {
    double[] volts = new double[N];
    Arrays.fill(volts, 0.185);
    Quantity found = alone(volts);
    double noise = BOARD.noise().rms(2, Probe.Pace.WAVE);
    double low = 3e-6;
    double high = 1e-3;
    ChargeCurve curve = new ChargeCurve(START, 2.5e-3);
    for (int i = 0; i < 60; i++) {
      double middle = Math.sqrt(low * high);
      boolean shows = 0.185 * curve.lacking(0, middle) > 3 * noise;
      high = shows ? middle : high;
      low = shows ? low : middle;
    }
    // Found in steps of 5 %; rectangular from nothing to it.
    double bound = found.value() * 2;
    assertThat(bound * 0.185 / AMPS).isBetween(high, 1.0501 * high);
    assertThat(found.u()).isCloseTo(bound / Math.sqrt(12), within(1e-6 * bound));
  }

  /** A leakage of a kilohm leaves 0.2 mV: nothing is said of what lies beside it. */
  @Test
  void whatHardlyComesUpIsNotRead() {
    double[] volts = new double[N];
    assertThat(alone(volts)).isNull();
    Arrays.fill(volts, -0.1);
    assertThat(alone(volts)).isNull();
    Arrays.fill(volts, 1e-3);
    assertThat(alone(volts)).isNull(); // bounded by more than 150 pF
  }

  @Test
  void withoutTransientsNothingIsFitted() {
    ChargeFit fit = new ChargeFit(BOARD, 2);
    fit.solve();
    assertThat(fit.farads(0)).isNull();
  }
}
