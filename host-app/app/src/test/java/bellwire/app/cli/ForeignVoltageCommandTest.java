package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a technician reads when the cable is live. */
class ForeignVoltageCommandTest {
  private static final String CABLE =
      """
      bellwire-bench: 1
      seed: 7
      cable:
        gauge: 18 AWG
        length: 24.5 m
        conductors:
          - {port: P1, colour: red,   far: 3}
          - {port: P2, colour: white, far: 1}
          - {port: P3, colour: green, far: 2}
          - {port: P4, colour: blue,  far: 4}
      """;

  @TempDir private Path folder;
  private final StringWriter out = new StringWriter();
  private JsonNode interlock = new ObjectMapper().createObjectNode();

  private int survey(String surroundings) throws Exception {
    Path bench = folder.resolve("bench.yaml");
    Path json = folder.resolve("result.json");
    Files.writeString(bench, CABLE + "surroundings: {" + surroundings + "}\n");
    int status =
        BellwireMain.commandLine()
            .setOut(new PrintWriter(out))
            .setErr(new PrintWriter(out))
            .execute("survey", "--bench", bench.toString(), "--json", json.toString());
    JsonNode root = new ObjectMapper().readTree(json.toFile());
    interlock = root.path("interlock");
    assertThat(root.has("conductors")).isFalse();
    assertThat(interlock.path("stopped-the-survey").asBoolean()).isTrue();
    return status;
  }

  @Test
  void alternatingVoltageFromTheStart() throws Exception {
    int status = survey("foreign: [{between: [P1, P3], volts: 26, hz: 60, ohm: 2, from: 0 s}]");
    assertThat(status).isEqualTo(ExitCode.FOREIGN_VOLTAGE.status());
    assertThat(out.toString())
        .contains("FOREIGN VOLTAGE")
        .contains("V AC between P")
        .contains("driven");
    JsonNode voltage = interlock.path("voltage");
    assertThat(voltage.path("between")).extracting(JsonNode::asText).containsOnly("P1", "P3");
    assertThat(voltage.path("volts-rms").asDouble()).isBetween(25.0, 27.0);
    assertThat(voltage.path("alternating").asBoolean()).isTrue();
    assertThat(voltage.path("driven").asBoolean()).isTrue();
  }

  @Test
  void directVoltageInTheMiddle() throws Exception {
    int status = survey("foreign: [{between: [P2, M], volts: 5, hz: 0, ohm: 2, from: 4 s}]");
    assertThat(status).isEqualTo(ExitCode.FOREIGN_VOLTAGE.status());
    assertThat(out.toString())
        .contains("INTERLOCK TRIPPED")
        .contains("5.0 V DC between P2 (+) and M, driven");
    // One end outside its window is enough to trip.
    assertThat(interlock.path("tripped")).extracting(JsonNode::asText).containsAnyOf("P2", "M");
  }

  @Test
  void inducedVoltageIsCalledInduced() throws Exception {
    int status = survey("induced: [{on: P2, volts: 120, hz: 60, capacitance: 22 pF}]");
    assertThat(status).isEqualTo(ExitCode.FOREIGN_VOLTAGE.status());
    assertThat(out.toString())
        .contains("P2")
        .contains("induced by a cable nearby")
        .contains("Nothing may be connected while in doubt");
    assertThat(interlock.path("voltage").path("driven").asBoolean()).isFalse();
  }
}
