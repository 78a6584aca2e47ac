package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AgentArgumentsTest {
  @Test
  void aFileMayFollowWhatIsAsked() throws Exception {
    Optional<Path> file = Optional.of(Path.of("a.conf"));
    assertThat(of("")).isEqualTo(new AgentArguments(false, 0, Optional.empty()));
    assertThat(of("a.conf")).isEqualTo(new AgentArguments(false, 0, file));
    assertThat(of("check")).isEqualTo(new AgentArguments(true, 0, Optional.empty()));
    assertThat(of("check a.conf")).isEqualTo(new AgentArguments(true, 0, file));
    assertThat(of("tick 600 a.conf")).isEqualTo(new AgentArguments(false, 600, file));
  }

  @ParameterizedTest
  @ValueSource(strings = {"tick", "tick 0", "tick -1", "tick 100000", "tick x", "a b", "--help"})
  void whatIsNotUnderstoodIsAnsweredWithTheUsage(String words) {
    assertThatThrownBy(() -> of(words))
        .isInstanceOf(AgentArguments.Wrong.class)
        .hasMessageStartingWith("usage: bellwire-agent");
  }

  private static AgentArguments of(String words) throws Exception {
    return AgentArguments.of(words.isEmpty() ? List.of() : List.of(words.split(" ")));
  }
}
