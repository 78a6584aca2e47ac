package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.WrappedLine;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.Transport;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * An agent held up for longer than the board's watchdog waits, in the midst of a survey: the relays
 * let go of charged conductors, and where that trips the interlock it is no voltage.
 */
class HeldUpAgentTest {
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: SEED
      cable:
        gauge: 18 AWG
        length: 40 m
        conductors:
          - {port: P1, colour: red, far: 2}
          - {port: P2, colour: white, far: 1}
          - {port: P3, colour: green, far: 3}
          - {port: P4, colour: blue, far: 4}
          - {port: P5, colour: yellow, far: 5}
      bridges:
        - {between: [P1, P4], at: 0.40, ohm: 258 kohm}
        - {between: [P2, P3], at: 0.30, ohm: 5}
      """;

  /** Holds the agent up for 60 to 200 ms now and then, while its relays are closed. */
  private static final class HoldingLine extends WrappedLine {
    private final SimulatedDevice device;
    private final SplittableRandom random;
    private int times;
    private long closedMicros = 1_000_000;

    HoldingLine(SimulatedDevice device, SplittableRandom random) {
      super(BenchTransport.of(device));
      this.device = device;
      this.random = random;
    }

    @Override
    public void await(long micros) {
      if (device.relaysClosed() && (closedMicros -= micros) < 0) {
        times++;
        closedMicros = random.nextLong(500_000, 4_000_000);
        device.freezeAgent(true);
        line.await(random.nextLong(60_000, 200_000));
        device.freezeAgent(false);
      }
      line.await(micros);
    }
  }

  /** Of a cable with faults: what is found is what is found by an agent that was never late. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void whatWasHeldUpIsMeasuredAgain(long seed) throws Exception {
    Bench bench = BenchFile.parse("held-up.yaml", BENCH.replace("SEED", "" + seed));
    HoldingLine line = new HoldingLine(new SimulatedDevice(bench), new SplittableRandom(seed));
    List<String> notes = new ArrayList<>();
    SurveyOutcome held = survey(line, notes);
    SurveyOutcome prompt = survey(BenchTransport.of(new SimulatedDevice(bench)), new ArrayList<>());
    System.out.println("seed=" + seed + " held up " + line.times + " times: " + notes);
    assertThat(line.times).isPositive();
    assertThat(notes).isNotEmpty().allMatch(note -> note.contains("held up"));
    assertThat(found(held)).isEqualTo(found(prompt));
  }

  private static List<String> found(SurveyOutcome outcome) {
    return Objects.requireNonNull(outcome.result()).findings().stream()
        .map(finding -> finding.kind() + " " + finding.ports())
        .toList();
  }

  private static SurveyOutcome survey(Transport line, List<String> notes) throws Exception {
    SurveyOptions openOnly = SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 60);
    try (AgentInstrument instrument =
        new AgentInstrument(
            line,
            HostEndpoint.Timing.forBaud(921_600),
            new ScanTranslation(60)::step,
            SimulatedSurvey.BOARD.converterVolts(),
            () -> false,
            1,
            notes::add)) {
      return new SurveyRun(instrument, SimulatedSurvey.BOARD, openOnly, SurveyListener.silent())
          .run();
    }
  }
}
