package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.ChargeModel.Common;
import bellwire.analysis.survey.ChargeModel.Solved;
import bellwire.analysis.survey.ChargeModel.Transient;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What transients have in common, and which of them have a say in it. */
class ChargeTogetherTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final double NOISE = BOARD.noise().rms(2, Probe.Pace.WAVE);
  private static final double OMEGA = 2 * Math.PI * 50;
  private static final int[] WINDOWS = IntStream.range(0, 24).toArray();

  /** Of 185 mV, with hum; windows late by so many tens of microseconds. */
  private static double[] volts(double late, double tau) {
    ChargeCurve curve = new ChargeCurve(41 / 256e3 + late * 10e-6, 2.5e-3);
    double[] volts = new double[WINDOWS.length];
    for (int k = 0; k < volts.length; k++) {
      double lacking = curve.lacking(k, tau);
      volts[k] =
          0.185 * (1 - lacking)
              + 0.002 * (curve.cosine(k, OMEGA) - lacking)
              - 0.003 * curve.sine(k, OMEGA);
    }
    return volts;
  }

  private static Solved solved(double late, double tau, Common prior) {
    Transient t = new Transient(0, WINDOWS, volts(late, tau));
    t.tau = tau;
    t.linear = new double[] {0.185, 0.002, -0.003};
    return ChargeModel.solve(List.of(t), prior, OMEGA, NOISE);
  }

  /** Two estimates as sure as each other meet halfway. */
  @Test
  void aPriorAndAReadingMeetHalfway() {
    Common nothing = new Common(0, 1, 0, 1e3);
    Solved alone = solved(0, 1.4e-3, nothing);
    assertThat(alone.point[0]).isCloseTo(0, within(1e-6));
    double u = alone.u(1);
    Solved late = solved(0, 1.4e-3, new Common(0, 1, 2 * u, u));
    assertThat(late.point[1]).isCloseTo(u, within(0.05 * u));
    assertThat(late.u(1)).isCloseTo(u / Math.sqrt(2), within(0.02 * u));
    double uOmega = alone.u(0);
    Solved fast = solved(0, 1.4e-3, new Common(2 * uOmega, uOmega, 0, 1e3));
    assertThat(fast.point[0]).isCloseTo(uOmega, within(0.05 * uOmega));
    assertThat(fast.u(0)).isCloseTo(uOmega / Math.sqrt(2), within(0.02 * uOmega));
  }

  /** A short stub's start is that of the conductors beside it, however many stubs there are. */
  @Test
  void conductorsTellTheStubsTheirStart() {
    ChargeFit fit = new ChargeFit(BOARD, 2);
    for (int stub = 0; stub < 4; stub++) {
      fit.add(stub, WINDOWS, volts(2, 45e-6));
    }
    fit.add(4, WINDOWS, volts(2, 1.4e-3));
    fit.add(5, WINDOWS, volts(2, 1.2e-3));
    fit.solve();
    ChargeFit lone = new ChargeFit(BOARD, 2);
    lone.add(0, WINDOWS, volts(2, 45e-6));
    lone.solve();
    double farads = 45e-6 * 2.0 / (1e7 + 766) / 0.185;
    Quantity stub = fit.farads(0);
    assertThat(stub.value()).isCloseTo(farads, within(0.01 * farads));
    assertThat(lone.farads(0).u()).isGreaterThan(3 * stub.u());
  }

  private static Quantity firstBeside(double late) {
    ChargeFit fit = new ChargeFit(BOARD, 2);
    for (int i = 0; i < 4; i++) {
      fit.add(i, WINDOWS, volts(0, 1.4e-3));
    }
    fit.add(4, WINDOWS, Double.isNaN(late) ? new double[24] : volts(late, 1.4e-3));
    fit.solve();
    return fit.farads(0);
  }

  /** Later than four of its own uncertainties and half a microsecond, it has no say. */
  @Test
  void whatBeginsAtAnotherTimeHasNoSay() {
    double limit = 4 * (solved(0, 1.4e-3, Common.NOTHING).uStart() + 0.05);
    double without = firstBeside(10 * limit).value();
    assertThat(firstBeside(1.03 * limit).value()).isCloseTo(without, within(1e-9 * without));
    assertThat(firstBeside(-1.03 * limit).value()).isCloseTo(without, within(1e-9 * without));
    double moved = Math.abs(firstBeside(0.97 * limit).value() - without);
    assertThat(moved).isGreaterThan(1e-6 * without);
  }
}
