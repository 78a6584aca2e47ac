package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;

/**
 * The program itself and a simulated device as two processes, joined by pseudo-terminals through
 * the serial library at both ends.
 */
@Tag("alone")
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class SurveyOverSerialTest {
  /** 20 milliohm at most at each end, as the bench draws contacts. */
  private static final double CONTACTS_OHMS = 0.04;

  @TempDir static Path silentDirectory;
  private static SerialRig silentRig;
  private static ChildProgram silent;

  @TempDir Path directory;

  /** Begun first and looked at last: waiting for an answer takes most of its time. */
  @BeforeAll
  static void surveyWhereNobodyAnswers() throws Exception {
    SerialRig.require();
    silentRig = new SerialRig(silentDirectory);
    silent = silentRig.bellwire("survey", "--port", silentRig.hostDevice());
  }

  @AfterAll
  static void endSilentRig() throws Exception {
    if (silentRig != null) {
      silentRig.close();
    }
  }

  @Test
  void aSurveyFinishesAndFindsWhatIsThere() throws Exception {
    String bench = bench(25, 50);
    try (SerialRig rig = new SerialRig(directory)) {
      rig.bench(bench, 20);
      ChildProgram survey = survey(rig);
      assertThat(survey.status()).as(survey.errors()).isZero();
    }
    assertResultIsTrue(bench);
  }

  @Test
  void aSurveyGoesOnAfterTheCableWasPulled() throws Exception {
    String bench = bench(12, 45);
    try (SerialRig rig = new SerialRig(directory)) {
      rig.bench(bench, 10);
      ChildProgram survey = survey(rig);
      survey.awaitLine("> coded plug: which is which");
      survey.awaitLine("put on the tie plug, seen now: coded plug");
      rig.pull();
      assertThat(survey.running()).as("pulled before the survey's end").isTrue();
      rig.plugAgain();
      assertThat(survey.status()).as(survey.errors()).isZero();
    }
    assertResultIsTrue(bench);
  }

  @Test
  void anInterruptLetsGoOfTheCable() throws Exception {
    try (SerialRig rig = new SerialRig(directory)) {
      ChildProgram device = rig.bench(bench(100, 200), 1);
      ChildProgram survey = survey(rig);
      survey.awaitLine("> far end open");
      while (!relays(device).equals("closed")) {
        Thread.onSpinWait(); // each turn waits for the device's answer
      }
      long pressed = System.nanoTime();
      survey.interrupt();
      assertThat(survey.status()).isEqualTo(130);
      assertThat((survey.endNanos() - pressed) * 1e-9).isLessThan(3);
      assertThat(survey.errors().strip())
          .isEqualTo("bellwire: stopped; the board has let go of the cable");
      assertThat(relays(device)).isEqualTo("open");
    }
  }

  @Test
  void aDeviceInUseIsOneLine() throws Exception {
    try (SerialRig rig = new SerialRig(directory);
        SerialTransport other = SerialTransport.open(rig.hostDevice(), 921_600)) {
      assertThat(other.away()).isFalse();
      assertOneLine(
          rig.bellwire("survey", "--port", rig.hostDevice()), "is in use by another program");
    }
  }

  @Test
  void aWrongDeviceIsOneLine() throws Exception {
    try (SerialRig rig = new SerialRig(directory)) {
      ChildProgram missing = rig.bellwire("survey", "--port", "/dev/no-such-device");
      ChildProgram other = rig.bellwire("survey", "--port", "/dev/null");
      assertOneLine(missing, "no serial device /dev/no-such-device");
      assertOneLine(other, "/dev/null is no serial device");
    }
  }

  @Test
  @Order(Integer.MAX_VALUE)
  void nobodyAnsweringIsOneLine() throws Exception {
    assertOneLine(silent, "no answer on " + silentRig.hostDevice());
  }

  @Test
  void portsAreListed() throws Exception {
    try (SerialRig rig = new SerialRig(directory)) {
      ChildProgram ports = rig.bellwire("ports");
      assertThat(ports.status()).as(ports.errors()).isZero();
      // The machine's own: a path each, or one line that says there is none.
      assertThat(ports.awaitLine("")).matches("/dev/\\S+  .*|no serial device: .*");
    }
  }

  private ChildProgram survey(SerialRig rig) throws IOException, InterruptedException {
    return rig.bellwire(
        "survey",
        "--port",
        rig.hostDevice(),
        "--ports",
        "P1=red,P2=white,P3=green,P4=blue,P5=yellow",
        "--json",
        directory.resolve("result.json").toString());
  }

  private static String relays(ChildProgram device) throws IOException, InterruptedException {
    device.tell("");
    return device.awaitLine("time=").replaceAll(".*relays=(\\w+).*", "$1");
  }

  private static void assertOneLine(ChildProgram program, String part) throws Exception {
    assertThat(program.status()).as(program.errors()).isEqualTo(3);
    assertThat(program.errors().strip().lines().toList())
        .singleElement()
        .asString()
        .startsWith("bellwire: ")
        .contains(part);
    assertThat(program.seconds()).isLessThan(12);
  }

  private void assertResultIsTrue(String bench) throws IOException, FileException {
    JsonNode result = new ObjectMapper().readTree(directory.resolve("result.json").toFile());
    JsonNode conductors = result.get("conductors");
    try (SimulatedDevice device = new SimulatedDevice(BenchFile.parse("bench.yaml", bench))) {
      Truth truth = device.copper().truth();
      assertThat(conductors.size()).isEqualTo(truth.wires().size());
      for (int i = 0; i < conductors.size(); i++) {
        JsonNode found = conductors.get(i);
        Truth.Wire wire = truth.wires().get(i);
        assertThat(found.get("port").asText()).isEqualTo("P" + (wire.port() + 1));
        assertThat(found.get("far-position").asInt()).isEqualTo(wire.far());
        JsonNode ohms = found.get("resistance");
        double spread = 4 * ohms.get("standard-uncertainty").asDouble();
        assertThat(ohms.get("value").asDouble())
            .isBetween(wire.ohms() - spread, wire.ohms() + CONTACTS_OHMS + spread);
      }
    }
    assertThat(result.get("findings")).isEmpty();
    // Three phases, and a look for voltage before arming, after each and before each plug.
    assertThat(result.get("times")).hasSize(3 + 6);
  }

  private static String bench(int codedSeconds, int tieSeconds) {
    return """
        bellwire-bench: 1
        seed: 11
        cable:
          gauge: 18 AWG
          length: 18 m
          conductors:
            - {port: P1, colour: red, far: 2}
            - {port: P2, colour: white, far: 5}
            - {port: P3, colour: green, far: 1}
            - {port: P4, colour: blue, far: 4}
            - {port: P5, colour: yellow, far: 3}
        far-end: [{from: 0 s, plug: open}, {from: %d s, plug: coded}, {from: %d s, plug: tie}]
        surroundings: {hum: 5 mV 60 Hz}
        """
        .formatted(codedSeconds, tieSeconds);
  }
}
