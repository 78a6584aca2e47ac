package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.agent.record.RecordSettings;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class AgentConfigurationTest {

  /** The commented file shows the defaults, each of them. */
  @Test
  void theShippedFileIsTheDefaults() throws AgentConfiguration.Unusable {
    assertThat(AgentConfiguration.read(Path.of("agent.conf")))
        .isEqualTo(AgentConfiguration.defaults());
  }

  @Test
  void valuesAreTaken() throws AgentConfiguration.Unusable {
    AgentConfiguration read =
        AgentConfiguration.parse(
            "f", List.of("# a comment", "", " serial-device=/dev/ttyUSB0 ", "baud = 115200"));
    assertThat(read.serialDevice()).isEqualTo("/dev/ttyUSB0");
    assertThat(read.baud()).isEqualTo(115_200);
    assertThat(read.tickMicros()).isEqualTo(1000);
    assertThat(read.record())
        .contains(new RecordSettings(Path.of("/var/lib/bellwire"), RecordSettings.USUAL_BYTES));
    List<String> own = List.of("record-directory = /media/card", "record-bytes = 20000000000");
    assertThat(AgentConfiguration.parse("f", own).record())
        .contains(new RecordSettings(Path.of("/media/card"), 20_000_000_000L));
    assertThat(AgentConfiguration.parse("f", List.of("record-directory = none")).record())
        .isEmpty();
  }

  @Test
  void mistakesAreToldWithFileLineAndRemedy() {
    refused("f:2: unknown name=bauds; known are [baud, ", "", "bauds = 1");
    refused("f:1: baud=fast must be a whole number from 9600 to 4000000", "baud = fast");
    refused("f:1: tick-micros=1 must be a whole number from 500 to 10000", "tick-micros = 1");
    refused("f:1: record-bytes=1000 must be a whole number from 1048576", "record-bytes=1000");
    refused("f:1: record-directory=a\\u0000b is no path; write none", "record-directory=a\0b");
    refused("f:1: expected name = value, found 'baud 9600'", "baud 9600");
    refused("f:1: baud has no value", "baud =");
    refused("f:2: baud is already set at f:1", "baud = 9600", "baud = 9600");
    assertThatThrownBy(() -> AgentConfiguration.read(Path.of("no-such-file")))
        .hasMessageStartingWith("no-such-file: cannot be read");
  }

  private static void refused(String message, String... lines) {
    assertThatThrownBy(() -> AgentConfiguration.parse("f", List.of(lines)))
        .isInstanceOf(AgentConfiguration.Unusable.class)
        .hasMessageStartingWith(message);
  }
}
