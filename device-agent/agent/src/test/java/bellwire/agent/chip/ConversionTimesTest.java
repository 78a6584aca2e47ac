package bellwire.agent.chip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.link.Rate;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

class ConversionTimesTest {

  /** Milliseconds column of table 13 in data sheet SBAS815A, which rounds to 1 us. */
  @Test
  void firstConversionsTakeTheDataSheetsTime() {
    Map<Rate, Double> milliseconds =
        Map.ofEntries(
            Map.entry(Rate.SPS_2_5, 406.504),
            Map.entry(Rate.SPS_5, 206.504),
            Map.entry(Rate.SPS_10, 106.504),
            Map.entry(Rate.SPS_16_6, 60.254),
            Map.entry(Rate.SPS_20, 56.504),
            Map.entry(Rate.SPS_50, 20.156),
            Map.entry(Rate.SPS_60, 16.910),
            Map.entry(Rate.SPS_100, 10.156),
            Map.entry(Rate.SPS_200, 5.156),
            Map.entry(Rate.SPS_400, 2.656),
            Map.entry(Rate.SPS_800, 1.406),
            Map.entry(Rate.SPS_1000, 1.156),
            Map.entry(Rate.SPS_2000, 0.656),
            Map.entry(Rate.SPS_4000, 0.406));
    assertThat(milliseconds).hasSize(Rate.values().length);
    milliseconds.forEach(
        (rate, ms) ->
            assertThat(ConversionTimes.firstNanos(rate) / 1e6)
                .as("%s", rate)
                .isCloseTo(ms, Offset.offset(0.001)));
  }

  /** Later conversions come at the nominal rate, 16.6 standing for 16 2/3. */
  @Test
  void laterConversionsComeAtTheNominalRate() {
    for (Rate rate : Rate.values()) {
      assertThat(1e9 / ConversionTimes.periodNanos(rate))
          .as("%s", rate)
          .isCloseTo(rate.perSecond(), Offset.offset(0.005 * rate.perSecond()));
    }
  }

  /** Delay codes 0 to 7 are 14, 25, 64, 256, 1024, 2048, 4096, 1 periods of 3.90625 us. */
  @Test
  void theShortestSufficientDelayIsChosen() {
    assertThat(ConversionTimes.delayCode(0)).isEqualTo(7);
    assertThat(ConversionTimes.delayCode(3)).isEqualTo(7);
    assertThat(ConversionTimes.delayCode(4)).isEqualTo(0);
    assertThat(ConversionTimes.delayCode(54)).isEqualTo(0);
    assertThat(ConversionTimes.delayCode(55)).isEqualTo(1);
    assertThat(ConversionTimes.delayCode(250)).isEqualTo(2);
    assertThat(ConversionTimes.delayCode(251)).isEqualTo(3);
    assertThat(ConversionTimes.delayCode(1001)).isEqualTo(4);
    assertThat(ConversionTimes.delayCode(4001)).isEqualTo(5);
    assertThat(ConversionTimes.delayCode(16_000)).isEqualTo(6);
    assertThat(ConversionTimes.delayNanos(6)).isEqualTo(16_000_000);
    assertThatThrownBy(() -> ConversionTimes.delayCode(16_001))
        .hasMessageContaining("settleMicros=16001");
  }
}
