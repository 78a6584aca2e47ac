package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What counts as a disturbance, and what can be seen of one. */
class LimitsTest {

  @Test
  void disturbanceLimitsWithTheirMarks() {
    List<Row> rows = ReferenceTables.load("disturbance/limits").rows();
    assertThat(rows).hasSameSizeAs(DisturbanceLimit.values());
    for (int i = 0; i < rows.size(); i++) {
      DisturbanceLimit limit = DisturbanceLimit.values()[i];
      Row row = rows.get(i);
      assertThat(limit.standard()).isEqualTo(row.text("standard"));
      assertThat(limit.riseOhms()).isEqualTo(row.number("riseOhms"));
      assertThat(limit.durationMicros()).isCloseTo(row.number("nanos") / 1000, within(1e-12));
      assertThat(limit.read()).isEqualTo(row.status().decides());
      // A cable of 25 m lets 11 us through: none of them can be claimed.
      assertThat(limit.canBeShown(11)).isFalse();
    }
    assertThat(DisturbanceLimit.EIA_364_46.canBeShown(0.9)).isTrue();
  }

  @Test
  void interruptionClassesOfItuO62() {
    List<Row> rows = ReferenceTables.load("disturbance/interruption-classes").rows();
    for (int i = 0; i < rows.size(); i++) {
      InterruptionClass each = InterruptionClass.values()[i + 1];
      long from = Math.round(1000 * rows.get(i).number("fromMillis"));
      assertThat(each.fromMicros()).isEqualTo(from);
      assertThat(InterruptionClass.of(from)).isEqualTo(each);
      assertThat(InterruptionClass.of(from - 1)).isEqualTo(InterruptionClass.values()[i]);
    }
    assertThat(InterruptionClass.of(Long.MAX_VALUE)).isEqualTo(InterruptionClass.LONGER);
    assertThat(InterruptionClass.of(0)).isEqualTo(InterruptionClass.SHORTER);
  }

  /** Bird, problem 17.01: the time to half of the supply. */
  @Test
  void theShortestOpeningIsTheTimeToHalf() {
    Row row = ReferenceTables.load("fault-location/charging").row("problem", "17.01");
    assertThat(ShortestOpening.micros(row.number("ohms"), row.number("farads")) * 1e-6)
        .isCloseTo(row.number("halfValueSeconds"), within(row.lastPlace("halfValueSeconds") / 2));
    assertThatThrownBy(() -> ShortestOpening.micros(0, 1e-9)).hasMessageContaining("wettingOhms=0");
  }
}
