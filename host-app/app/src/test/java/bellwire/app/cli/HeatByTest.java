package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.vigil.HeatBy;
import bellwire.app.vigil.VigilSite;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import org.junit.jupiter.api.Test;

class HeatByTest {
  private static final ZonedDateTime NOON =
      ZonedDateTime.of(2026, 1, 10, 12, 0, 0, 0, ZoneId.of("Europe/Vienna"));

  private static VigilSite site(String heatBy) {
    return new VigilSite("two; heat back by noon", 4, VigilSite.next(heatBy, NOON).orElseThrow());
  }

  @Test
  void whatTheNoteKeepsIsReadAgainAfterARestart() {
    HeatBy heat = HeatBy.of(site("17:30").note());
    assertThat(heat.live(NOON)).isEqualTo("HEAT BACK BY 17:30");
    assertThat(heat.live(NOON.plusHours(5))).isEqualTo("HEAT BACK BY 17:30, IN 30 min");
    assertThat(heat.live(NOON.plusHours(6))).isEqualTo("HEAT OVERDUE SINCE 17:30");
    assertThat(heat.atTheEnd(NOON)).contains("by 17:30");
    assertThat(heat.atTheEnd(NOON.plusHours(6))).contains("OVERDUE since 17:30");
  }

  @Test
  void aNoteWithoutSuchATimeIsNoTrouble() {
    assertThat(HeatBy.of("").live(NOON)).isEmpty();
    assertThat(HeatBy.of("heat back by soon").live(NOON)).isEmpty();
    assertThat(HeatBy.of("").atTheEnd(NOON)).startsWith("Give the building its heat back");
  }

  @Test
  void aVigilEndsInTimeToLandTheConductors() {
    assertThat(site("13:00").mostMicros(NOON)).isEqualTo(45 * 60_000_000L);
    assertThat(site("12:10").mostMicros(NOON)).isLessThan(VigilSite.LEAST_MICROS);
  }
}
