package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.BenchTransport.Pace;
import bellwire.app.link.AgentInstrument;
import bellwire.app.report.Cautions;
import bellwire.app.report.ResultJson;
import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.link.HostEndpoint;
import java.io.IOException;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/** A survey computed again from its tape is the same to the last digit. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SurveyTapeTest {
  private static final BoardModel BOARD = BoardModels.of(BoardDescription.revisionA());

  private String measured = "";
  private byte[] tape = {};

  @BeforeAll
  void survey() throws Exception {
    AgentInstrument agent =
        new AgentInstrument(
            BenchTransport.builtIn("healthy-5", Pace.FAST.speed()),
            HostEndpoint.Timing.forBaud(921_600),
            new ScanTranslation(60)::step,
            BOARD.converterVolts(),
            () -> false,
            1,
            note -> {});
    try (SurveyTape.Recorder recorder = new SurveyTape.Recorder(agent)) {
      measured = json(recorder, options(Set.of(FarEndKind.CODED, FarEndKind.TIE)));
      tape = recorder.tape();
    }
  }

  private static SurveyOptions options(Set<FarEndKind> plugs) {
    return new SurveyOptions(
        0,
        plugs,
        2_000_000,
        180_000_000,
        0,
        60_000_000,
        BoardModels.plug(CodedPlug.nominal()),
        new CableFacts(Gauge.awg(18), Double.NaN, 21, 3),
        Criteria.standard());
  }

  private static String json(Instrument instrument, SurveyOptions options)
      throws InstrumentTrouble, IOException {
    SurveyOutcome outcome =
        new SurveyRun(instrument, BOARD, options, SurveyListener.silent()).run();
    return ResultJson.text(outcome, Map.of(), Cautions.lines());
  }

  @Test
  void theSameComesOutOfTheTape() throws Exception {
    try (SurveyTape.Player player = new SurveyTape.Player(tape)) {
      assertThat(json(player, options(Set.of(FarEndKind.CODED, FarEndKind.TIE))))
          .isEqualTo(measured)
          .contains("\"conductors\"");
    }
  }

  @Test
  void otherQuestionsThanWereAskedAreRefused() throws Exception {
    try (SurveyTape.Player player = new SurveyTape.Player(tape)) {
      SurveyOptions other = options(Set.of()).withTies(new TieChoice(0, true));
      assertThatThrownBy(() -> json(player, other))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("other questions");
    }
  }

  @Test
  void aTapeThatWasCutIsRefused() throws Exception {
    try (SurveyTape.Player player = new SurveyTape.Player(Arrays.copyOf(tape, tape.length / 2))) {
      assertThatThrownBy(() -> json(player, options(Set.of(FarEndKind.CODED, FarEndKind.TIE))))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("damaged");
    }
  }
}
