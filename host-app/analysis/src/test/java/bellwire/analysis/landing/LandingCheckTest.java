package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.SampleLoops;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LandingCheckTest {
  @ParameterizedTest
  @EnumSource
  void aHealthySampleHasNoticesAtMost(SampleLoops sample) {
    assertThat(LandingCheck.check(sample.healthy())).allMatch(Found::notice);
  }
}
