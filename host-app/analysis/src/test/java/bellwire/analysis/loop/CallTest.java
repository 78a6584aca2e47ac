package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CallTest {
  @Test
  void aCallHeatsOrCoolsOrDoesNeither() {
    assertThat(Stream.of(Call.values()).filter(Call::cools))
        .containsExactly(Call.COOL_1, Call.COOL_2);
    assertThat(Stream.of(Call.values()).filter(Call::heats))
        .containsExactly(Call.HEAT_1, Call.HEAT_2, Call.HEAT_3, Call.EMERGENCY_1, Call.EMERGENCY_2);
    assertThat(List.of(Call.NONE, Call.FAN)).noneMatch(c -> c.heats() || c.cools());
  }

  @Test
  void everyCallHasWordsOfItsOwn() {
    assertThat(Stream.of(Call.values()).map(Call::words)).doesNotHaveDuplicates();
    assertThat(Call.COOL_2.words()).isEqualTo("second stage of cooling");
  }
}
