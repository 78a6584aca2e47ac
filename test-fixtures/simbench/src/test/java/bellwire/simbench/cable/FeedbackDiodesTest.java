package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FeedbackDiodesTest {
  private static final int POINTS = 5000;

  private final FeedbackDiodes diodes = new FeedbackDiodes(BoardDescription.revisionA(), 3e-10);

  /** Kirchhoff: what the resistor and the diodes take is what flows in. */
  @ParameterizedTest
  @CsvSource({"0.04, 1e6", "0.35, 1e6", "0.6, 1e6", "5, 1e6", "-0.5, 1e4", "200, 1e4"})
  void resistorAndDiodesTakeTheCurrent(double without, double feedbackOhms) {
    double with = diodes.limited(without, feedbackOhms);
    double scale = BoardDescription.revisionA().nominal("feedback-diode-volts");
    double diode = 3e-10 * Math.sinh(with / scale) / Math.sinh(0.35 / scale);
    assertThat(with / feedbackOhms + diode)
        .isCloseTo(without / feedbackOhms, within(1e-9 * Math.abs(without / feedbackOhms)));
  }

  /** Against the mean of the output, solved point by point along a period of hum. */
  @ParameterizedTest
  @CsvSource({"0.04, 0.27", "0.23, 0.08", "0.2, 0.11", "0.27, 0.15", "0, 0.3"})
  void theMeanWithHumIsThatOfThePeriod(double mean, double peak) {
    assertThat(diodes.limitedMean(mean, mean - peak, mean + peak, 1e6))
        .isCloseTo(period(mean, peak), within(2e-5 * mean + 1e-12));
  }

  /** What {@code hardware-notes/README.md} says of hum from 3 pF to 230 V. */
  @Test
  void muchHumTakesFourPercentOff() {
    double peak = Math.sqrt(2) * 230 * 2 * Math.PI * 50 * 3e-12 * 1e6;
    assertThat(1 - period(0.27, peak) / 0.27).isCloseTo(0.04, within(0.005));
  }

  private double period(double mean, double peak) {
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      sum += diodes.limited(mean + peak * Math.sin(2 * Math.PI * (i + 0.5) / POINTS), 1e6);
    }
    return sum / POINTS;
  }
}
