package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class OpeningWordsTest {
  private static final double EVER = Double.POSITIVE_INFINITY;

  @Test
  void whatAFuseDoesIsSaidInItsTime() {
    assertThat(OpeningTime.NEVER.words()).isEqualTo("holds");
    assertThat(new OpeningTime(0, EVER).words()).isEqualTo("may open, or never");
    assertThat(new OpeningTime(2, EVER).words()).isEqualTo("may open after 2 s, or never");
    assertThat(new OpeningTime(0, 0.1).words()).isEqualTo("opens within 0.1 s");
    assertThat(new OpeningTime(0.023, 10).words()).isEqualTo("opens after 0.023 s to 10 s");
    assertThat(new OpeningTime(299, 300).words()).isEqualTo("opens after 299 s to 5 min");
    assertThat(new OpeningTime(7199, 7200).words()).isEqualTo("opens after 119.98 min to 2 h");
  }

  @Test
  void whatMayOpenNeedNot() {
    assertThat(OpeningTime.NEVER.possible() || OpeningTime.NEVER.certain()).isFalse();
    assertThat(new OpeningTime(1, EVER).possible()).isTrue();
    assertThat(new OpeningTime(1, EVER).certain()).isFalse();
    assertThat(new OpeningTime(1, 2).certain()).isTrue();
  }
}
