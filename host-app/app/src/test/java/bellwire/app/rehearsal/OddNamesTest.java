package bellwire.app.rehearsal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OddNamesTest {

  /** A job says what its rehearsal was called, and a job may come from anybody. */
  @ParameterizedTest
  @ValueSource(strings = {"/", "", "a\u0000b", "..", "x/", "\uD800"})
  void aNameThatIsNoPathIsOnlyAName(String name) throws Exception {
    String text = RehearsalFile.text("boiler-dry");
    Rehearsal rehearsal = RehearsalFile.parse(name, text, Map.of());
    assertThat(rehearsal.name()).isEqualTo(name.substring(name.lastIndexOf('/') + 1));
  }
}
