package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.app.link.AgentInstrument;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.InterlockTripped;
import bellwire.app.survey.ScanTranslation;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedBoard;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.chip.FaultyLine.Fault;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.simbench.kernel.Mishap;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The production agent through Pi4J's own providers, linuxfs for SPI and gpiod for lines, with the
 * native code that runs on a Pi. Below it the system calls are simulated: no kernel driver, no
 * clocked wire, and no interrupt of a line is in this.
 */
@Tag("alone")
class RealProvidersTest {
  private static final long ARMED_NANOS = 15_000_000_000L;
  private static final int ATTEMPTS = 4;
  private static final BoardModel BOARD = BoardModels.of(BoardDescription.revisionA());

  @TempDir Path directory;

  @BeforeAll
  static void require() throws Exception {
    PiRig.require();
  }

  @Test
  @Tag("realtime")
  void aSurveyFindsWhatIsThere() throws Exception {
    Bench bench =
        bench("[{from: 0 s, plug: open}, {from: 28 s, plug: coded}, {from: 48 s, plug: tie}]");
    Path result = directory.resolve("result.json");
    try (PiRig rig = new PiRig(directory, bench).awaitAgent()) {
      ChildProgram survey =
          rig.serial()
              .bellwire(
                  "survey",
                  "--port",
                  rig.serial().hostDevice(),
                  "--ports",
                  "P1-P3",
                  "--json",
                  result.toString());
      int status = survey.status();
      String told = Files.exists(result) ? Files.readString(result) : "";
      assertThat(status).as(survey.output(1) + survey.errors() + told).isZero();
      Truth truth = rig.devices().with(board -> board.copper().truth());
      JsonNode conductors = new ObjectMapper().readTree(result.toFile()).get("conductors");
      assertThat(conductors).hasSize(3);
      for (int i = 0; i < 3; i++) {
        Truth.Wire wire = truth.wires().get(i);
        JsonNode found = conductors.get(i);
        assertThat(found.get("far-position").asInt()).isEqualTo(wire.far());
        JsonNode ohms = found.get("resistance");
        double spread = 4 * ohms.get("standard-uncertainty").asDouble();
        assertThat(ohms.get("value").asDouble())
            .isBetween(wire.ohms() - spread, wire.ohms() + 0.04 + spread);
      }
      System.out.println(
          "real providers: transfers="
              + rig.devices().transfers()
              + " seconds="
              + survey.seconds());
    }
  }

  /** One agent, one trouble after another: each is named, nothing is measured, and it recovers. */
  @Test
  void whatFailsIsNamedAndNothingIsMeasured() throws Exception {
    Bench bench = bench("[{from: 0 s, plug: open}]");
    try (PiRig rig = new PiRig(directory, bench).awaitAgent();
        AgentInstrument instrument = instrument(rig)) {
      instrument.open();
      assertThat(arm(instrument)).isEmpty();
      assertThat(look(instrument)).isNotEmpty();
      for (String device : List.of("converter", "expanders", "crosspoint")) {
        for (Mishap mishap : List.of(Mishap.SHORT, Mishap.INPUT_OUTPUT_ERROR, Mishap.GONE)) {
          rig.devices().mishap(device, mishap);
          assertThat(trouble(instrument)).as(device + " " + mishap).contains(named(device));
          assertThat(relaysClosed(rig)).isFalse();
          rig.devices().mishap(device, Mishap.NONE);
          assertThat(arm(instrument)).as("after " + device + " " + mishap).isEmpty();
          assertThat(look(instrument)).isNotEmpty();
        }
      }
      for (String device : List.of("converter", "expanders")) {
        rig.devices().with(board -> fail(board, device, Fault.STUCK_HIGH));
        assertThat(trouble(instrument)).as(device + " stuck").contains(named(device));
        rig.devices().with(board -> fail(board, device, Fault.NONE));
        assertThat(arm(instrument)).isEmpty();
      }
      try (ChildProgram check = rig.check()) {
        check.awaitLine("pass  GPIO: /dev/gpiochip0");
        check.awaitLine("pass  board: its chips answer");
        assertThat(check.status()).as(check.errors()).isZero();
      }
    }
  }

  private static String named(String device) {
    return device.equals("expanders") ? "expander" : device;
  }

  /** What measuring comes to. */
  private static String trouble(AgentInstrument instrument) throws Exception {
    try {
      return "measured: " + look(instrument);
    } catch (InstrumentTrouble e) {
      return e.getMessage();
    }
  }

  private static boolean fail(SimulatedBoard board, String device, Fault fault) {
    board.chips().device(device).fail(fault, 0);
    return true;
  }

  private static boolean relaysClosed(PiRig rig) {
    return rig.devices().with(SimulatedBoard::relaysClosed);
  }

  /** The word of the trouble before may still be on its way, or a start after it under way. */
  private static String arm(AgentInstrument instrument) {
    String refused = "";
    long until = System.nanoTime() + ARMED_NANOS;
    while (System.nanoTime() < until) {
      try {
        refused = instrument.arm();
        if (refused.isEmpty()) {
          return refused;
        }
      } catch (InstrumentTrouble e) {
        refused = e.getMessage();
      }
      LockSupport.parkNanos(100_000_000);
    }
    return refused;
  }

  /** Two states of the switches, both with ports driven: what each word left shows at the next. */
  private static List<?> look(AgentInstrument instrument) throws Exception {
    List<Probe> probes = List.of(probe(0b001, 0b010), probe(0b010, 0b001));
    for (int attempt = 1; ; attempt++) {
      try {
        return instrument.measure(probes, share -> {}).readings();
      } catch (InterlockTripped e) {
        // Held up while it drove, the emulated agent lost its relays, and the cable its charge.
        if (attempt == ATTEMPTS) {
          throw e;
        }
        arm(instrument);
      }
    }
  }

  private static Probe probe(int drive, int returned) {
    return new Probe(
        drive, returned, 0b100, true, End.LOW, Look.REFERENCE, 1, Pace.QUICK, 4000, 2, false);
  }

  private static AgentInstrument instrument(PiRig rig) throws InstrumentTrouble {
    return new AgentInstrument(
        SerialTransport.open(rig.serial().hostDevice(), 921_600),
        HostEndpoint.Timing.forBaud(921_600),
        new ScanTranslation(60)::step,
        BOARD.converterVolts(),
        () -> false,
        1,
        note -> {});
  }

  private static Bench bench(String farEnd) throws Exception {
    return BenchFile.parse(
        "bench.yaml",
        """
        bellwire-bench: 1
        seed: 23
        cable:
          gauge: 18 AWG
          length: 18 m
          conductors:
            - {port: P1, colour: red, far: 2}
            - {port: P2, colour: white, far: 3}
            - {port: P3, colour: green, far: 1}
        far-end: %s
        surroundings: {hum: 5 mV 60 Hz}
        """
            .formatted(farEnd));
  }
}
