package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import org.junit.jupiter.api.Test;

class CusumTest {

  /**
   * The series of the NIST/SEMATECH e-Handbook 6.3.2.3; its sums and alarm are computed, k and h
   * are from memory: this decides about the arithmetic only.
   */
  @Test
  void sumsOverTheHandbookSeries() {
    Row series = ReferenceTables.load("change-points/handbook-series").only();
    Row said = ReferenceTables.load("change-points/handbook-tabular").only();
    double target = series.number("target");
    Cusum cusum = new Cusum(target, 1, said.number("k"), said.number("h"), 0);
    double lowMost = 0;
    int lowMostAt = 0;
    int alarm = 0;
    double[] values = series.numbers("values");
    for (int i = 0; i < values.length; i++) {
      Cusum.Alarm side = cusum.add(values[i]);
      if (side != Cusum.Alarm.NONE && alarm == 0) {
        alarm = i + 1;
        assertThat(side).isEqualTo(Cusum.Alarm.UP);
        // The sum was last 0 at sample 12: the level rose with the 13th.
        assertThat(cusum.samplesSince(side)).isEqualTo(2);
      }
      if (cusum.low() > lowMost) {
        lowMost = cusum.low();
        lowMostAt = i + 1;
      }
      if (i >= 12) {
        assertThat(cusum.high()).isCloseTo(said.numbers("high")[i - 12], within(1e-9));
      }
    }
    assertThat(alarm).isEqualTo(said.integer("firstAlarm"));
    assertThat(lowMost).isCloseTo(said.number("lowMaximum"), within(1e-9));
    assertThat(lowMostAt).isEqualTo(said.integer("lowMaximumAt"));
  }

  @Test
  void aHeadstartCountsOnBothSidesAndAfterARestart() {
    Cusum cusum = new Cusum(10, 2, 0.5, 4, 2);
    assertThat(cusum.add(6)).isEqualTo(Cusum.Alarm.NONE);
    assertThat(cusum.low()).isEqualTo(3.5);
    assertThat(cusum.high()).isZero();
    assertThat(cusum.add(8)).isEqualTo(Cusum.Alarm.NONE);
    assertThat(cusum.add(8.8)).isEqualTo(Cusum.Alarm.DOWN);
    assertThat(cusum.samplesSince(Cusum.Alarm.DOWN)).isEqualTo(3);
    cusum.restart();
    assertThat(cusum.high()).isEqualTo(2);
    assertThat(cusum.low()).isEqualTo(2);
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    assertThatThrownBy(() -> new Cusum(0, 0, 0.5, 4, 0)).hasMessageContaining("deviation=0.0");
    assertThatThrownBy(() -> new Cusum(0, 1, 0.5, 4, 5)).hasMessageContaining("headstart=5.0");
    Cusum cusum = new Cusum(0, 1, 0.5, 4, 0);
    assertThatThrownBy(() -> cusum.add(Double.NaN)).hasMessage("value=NaN");
  }
}
