package bellwire.app.visit;

import bellwire.analysis.survey.BoardModel;
import bellwire.app.job.SurveyRow;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.Transport;
import bellwire.app.report.Cautions;
import bellwire.app.report.ResultJson;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.ScanTranslation;
import bellwire.app.survey.SurveyListener;
import bellwire.app.survey.SurveyOutcome;
import bellwire.app.survey.SurveyRun;
import bellwire.app.survey.SurveyTape;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

/** A survey with a board, put into the job. */
final class SurveyWork extends Work<SurveyRow> {
  private final Visit visit;
  private final SurveyOrder order;
  private final SurveyListener listener;
  private volatile @Nullable AgentInstrument instrument;

  SurveyWork(Visit visit, SurveyOrder order, SurveyListener listener) {
    super("a survey");
    this.visit = visit;
    this.order = order;
    this.listener = listener;
  }

  @Override
  SurveyRow work() throws Exception {
    Boards boards = visit.boards();
    BoardModel board = BoardModels.of(BoardDescription.revisionA());
    ScanTranslation steps = new ScanTranslation(order.mainsHertz());
    HostEndpoint.Timing timing = HostEndpoint.Timing.forBaud(boards.baud());
    Transport transport =
        boards.open(order.inPlace() ? Boards.Use.SURVEY_IN_PLACE : Boards.Use.SURVEY);
    AgentInstrument agent =
        new AgentInstrument(
            transport,
            timing,
            steps::step,
            board.converterVolts(),
            this::cancelled,
            new SplittableRandom().nextLong(1L << 40),
            listener::note);
    instrument = agent;
    try (SurveyTape.Recorder taped = new SurveyTape.Recorder(agent)) {
      SurveyRun run = new SurveyRun(taped, board, order.options(), listener);
      SurveyOutcome outcome = (order.inPlace() ? run.inPlace() : run).run();
      String json = ResultJson.text(outcome, order.colours(), Cautions.lines());
      return stored(json, taped.tape());
    }
  }

  private SurveyRow stored(String json, byte[] readings) throws Exception {
    SurveyRow row =
        new SurveyRow(
            0,
            order.cable(),
            order.inPlace(),
            order.stage(),
            System.currentTimeMillis() * 1000,
            json,
            readings);
    return visit
        .change(
            Change.SURVEYS,
            all -> {
              long id = all.add(row);
              return new SurveyRow(
                  id,
                  row.cable(),
                  row.inPlace(),
                  row.stage(),
                  row.atUnixMicros(),
                  row.json(),
                  row.readings());
            })
        .get();
  }

  @Override
  boolean letGo() {
    AgentInstrument agent = instrument;
    return agent == null || agent.letGo();
  }
}
