package bellwire.agent.board;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Rate;
import org.junit.jupiter.api.Test;

/** Times from data sheet SBAS815A, table 13: 400 SPS takes 680 then 640 periods of 3.90625 us. */
class ConversionWatchTest {
  private final ConversionWatch watch = new ConversionWatch();

  @Test
  void theEndIsCountedFromTheLatchEdgeNotTheTick() {
    watch.start(10_000, 7, Rate.SPS_400, true);
    watch.notReady(11_000);
    watch.notReady(12_000);
    assertThat(watch.ready(13_000)).isEqualTo(10_000_000 + (long) (681 * 3906.25));
    watch.notReady(14_000);
    watch.notReady(15_000);
    assertThat(watch.ready(16_000)).isEqualTo(10_000_000 + (long) (681 * 3906.25) + 2_500_000);
    assertThat(watch.missed()).isZero();
  }

  @Test
  void aSlowOscillatorIsHeldByThePolls() {
    watch.start(0, 7, Rate.SPS_20, false);
    watch.notReady(57_000); // nominal end at 56.508 ms has passed unanswered
    assertThat(watch.ready(58_000)).isEqualTo(57_000_000);
  }

  @Test
  void aFastOscillatorIsHeldByThePolls() {
    watch.start(0, 7, Rate.SPS_20, false);
    watch.notReady(55_000);
    assertThat(watch.ready(56_000)).isEqualTo(56_000_000);
  }

  @Test
  void lateFetchesAreCountedAsMissed() {
    watch.start(0, 7, Rate.SPS_400, true);
    long first = watch.ready(3_000);
    assertThat(watch.ready(12_000)).isEqualTo(first + 3 * 2_500_000);
    assertThat(watch.missed()).isEqualTo(2);
  }

  @Test
  void silenceIsNoticed() {
    watch.start(0, 7, Rate.SPS_20, false);
    assertThat(watch.overdue(70_000)).isFalse();
    assertThat(watch.overdue(79_000)).isTrue();
  }

  /** What ended while the program hung in the transfer went with it: the next has all its time. */
  @Test
  void aFetchThatTookLongIsNoSilence() {
    watch.start(0, 7, Rate.SPS_20, true);
    watch.ready(57_000);
    watch.fetched(357_000);
    assertThat(watch.overdue(358_000)).isFalse();
    watch.notReady(358_000);
    assertThat(watch.ready(407_000)).isBetween(358_000_000L, 407_000_000L);
    assertThat(watch.missed()).isEqualTo(6);
    watch.fetched(407_010);
    assertThat(watch.overdue(500_000)).isTrue();
  }
}
