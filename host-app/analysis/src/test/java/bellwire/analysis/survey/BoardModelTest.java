package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.BoardModel.Stage;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Pace;
import org.junit.jupiter.api.Test;

/** What follows from a board's values, against closed forms. */
class BoardModelTest {
  private static final BoardModel BOARD = RoundBoard.MODEL;

  /** A diode pair takes 2·I₀·sinh(U/nUt): odd, and as described at the voltage it is given at. */
  @Test
  void theDiodesShareIsThatOfAPair() {
    Stage stage = BOARD.stage();
    assertThat(stage.diodeShare(Stage.DIODE_VOLTS)).isCloseTo(1, within(1e-12));
    assertThat(stage.diodeShare(-Stage.DIODE_VOLTS)).isCloseTo(-1, within(1e-12));
    assertThat(stage.diodeShare(0)).isZero();
    // far up a twentieth of a volt makes it e times as much
    assertThat(stage.diodeShare(0.30)).isCloseTo(1 / Math.E, within(1e-5));
  }

  /** DLMF 10.32.1: the mean of exp(x·cos) over a period is the modified Bessel function I₀. */
  @Test
  void aSineOnTopAddsItsMean() {
    Stage stage = BOARD.stage();
    for (double peak : new double[] {0, 0.001, 0.05, 0.2, 0.5}) {
      double mean = 0;
      int n = 20_000;
      for (int k = 0; k < n; k++) {
        mean += stage.diodeShare(0.2 + peak * Math.sin(2 * Math.PI * k / n)) / n;
      }
      double added = mean - stage.diodeShare(0.2);
      assertThat(stage.humShare(0.2, peak))
          .as("peak=" + peak)
          .isCloseTo(added, within(1e-9 * added + 1e-13));
    }
  }

  /** √3 for a third of the time, and so on: white noise by the square root of the rate. */
  @Test
  void noiseGrowsWithTheRateAndFallsWithTheGain() {
    double atOne = BOARD.noise().rms(1, Pace.PRECISE);
    assertThat(atOne).isCloseTo(Math.sqrt(4e-12 + 1e-14), within(1e-15));
    assertThat(BOARD.noise().rms(16, Pace.PRECISE))
        .isCloseTo(Math.sqrt(4e-12 / 256 + 1e-14), within(1e-15));
    assertThat(BOARD.noise().rms(1, Pace.QUICK)).isCloseTo(atOne * Math.sqrt(3), within(1e-15));
    assertThat(BOARD.noisier(3).noise().rms(16, Pace.WAVE))
        .isCloseTo(3 * BOARD.noise().rms(16, Pace.WAVE), within(1e-15));
    assertThat(BOARD.noisier(1)).isEqualTo(BOARD);
  }

  @Test
  void eachRangeHasItsOwnReference() {
    assertThat(BOARD.feedbackOhms(End.LOW)).isEqualTo(100);
    assertThat(BOARD.feedbackOhms(End.MID)).isEqualTo(10_000);
    assertThat(BOARD.feedbackOhms(End.HIGH)).isEqualTo(1e6);
    assertThat(BOARD.referenceTolerance(End.LOW)).isEqualTo(1e-3);
    assertThat(BOARD.referenceTolerance(End.MID)).isEqualTo(2e-3);
    assertThat(BOARD.referenceTolerance(End.HIGH)).isEqualTo(3e-3);
    assertThat(BOARD.referenceTemperature(End.LOW)).isEqualTo(4e-4);
    assertThat(BOARD.referenceTemperature(End.MID)).isEqualTo(5e-4);
    assertThat(BOARD.referenceTemperature(End.HIGH)).isEqualTo(6e-4);
    for (End end : new End[] {End.NONE, End.CHECK_HIGH, End.SOFT}) {
      assertThatIllegalArgumentException().isThrownBy(() -> BOARD.feedbackOhms(end));
      assertThatIllegalArgumentException().isThrownBy(() -> BOARD.referenceTolerance(end));
      assertThatIllegalArgumentException().isThrownBy(() -> BOARD.referenceTemperature(end));
    }
  }
}
