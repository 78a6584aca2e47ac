package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.WrappedLine;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.Transport;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A link that is cut and comes back, or does not, in the simulated bench's time. */
class LinkGapTest {
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 3
      cable:
        gauge: 18 AWG
        length: 12 m
        conductors:
          - {port: P1, colour: red, far: 2}
          - {port: P2, colour: white, far: 1}
          - {port: P3, colour: green, far: 3}
      """;

  private final List<String> notes = new ArrayList<>();

  /** Carries nothing from the host's n-th frame on, for a time. */
  private static final class CutLine extends WrappedLine {
    private final int cutAtWrite;
    private final long gapMicros;
    private final boolean vanishes;
    private final byte[] scrap = new byte[4096];
    private int writes;
    private long cutMicros = -1;

    CutLine(BenchTransport line, int cutAtWrite, long gapMicros, boolean vanishes) {
      super(line);
      this.cutAtWrite = cutAtWrite;
      this.gapMicros = gapMicros;
      this.vanishes = vanishes;
    }

    private boolean cut() {
      return cutMicros >= 0 && nowMicros() - cutMicros < gapMicros;
    }

    @Override
    public int read(byte[] into) {
      if (!cut()) {
        return line.read(into);
      }
      while (line.read(scrap) > 0) {
        // lost
      }
      return 0;
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (++writes == cutAtWrite) {
        cutMicros = nowMicros();
      }
      if (!cut()) {
        line.write(bytes, off, len);
      }
    }

    @Override
    public boolean away() {
      return vanishes && cut();
    }
  }

  /**
   * Longer than an answer is waited for, and than a program of this cable; greetings, requests and
   * acknowledgements are among the frames lost first.
   */
  @ParameterizedTest
  @ValueSource(ints = {4, 5, 6, 7, 8, 9, 10, 13, 17, 24, 33, 46, 60})
  void aSurveyOutlivesAGapOf17Seconds(int cutAtWrite) throws Exception {
    CutLine line = line(cutAtWrite, 17_000_000, false);
    SurveyOutcome outcome = survey(line);
    assertThat(line.cutMicros).as("the cut came within the survey").isPositive();
    assertThat(notes)
        .containsExactly(
            "the link is lost: waiting for it, plug the cable in again", "the link is back");
    assertThat(outcome.result()).isNotNull();
    assertThat(outcome.result().conductors()).hasSize(3);
    assertThat(outcome.result().findings()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {4, 6, 9, 20})
  void anAgentThatStaysSilentEndsTheSurveyWithin20Seconds(int cutAtWrite) throws Exception {
    CutLine line = line(cutAtWrite, Long.MAX_VALUE, false);
    assertThatThrownBy(() -> survey(line))
        .isInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("the agent on the line fell silent");
    assertThat(line.nowMicros() - line.cutMicros).isBetween(17_000_000L, 20_000_000L);
  }

  @ParameterizedTest
  @ValueSource(ints = {6, 20})
  void aDeviceThatStaysAwayIsNamed(int cutAtWrite) throws Exception {
    CutLine line = line(cutAtWrite, Long.MAX_VALUE, true);
    assertThatThrownBy(() -> survey(line))
        .isInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("the serial device the line was lost and did not come back");
    assertThat(line.nowMicros() - line.cutMicros).isLessThanOrEqualTo(20_000_000L);
  }

  private static CutLine line(int cutAtWrite, long gapMicros, boolean vanishes)
      throws FileException {
    SimulatedDevice device = new SimulatedDevice(BenchFile.parse("gap.yaml", BENCH));
    return new CutLine(BenchTransport.of(device), cutAtWrite, gapMicros, vanishes);
  }

  private SurveyOutcome survey(Transport line) throws InstrumentTrouble {
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
