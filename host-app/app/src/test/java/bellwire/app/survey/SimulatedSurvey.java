package bellwire.app.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.Transport;
import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.util.EnumSet;
import java.util.Set;
import java.util.function.BooleanSupplier;

/** A survey through every layer: chips, agent, link, analysis; with the truth beside it. */
final class SimulatedSurvey {
  static final BoardModel BOARD = BoardModels.of(BoardDescription.revisionA());

  final SurveyOutcome outcome;
  final Truth truth;

  private SimulatedSurvey(SurveyOutcome outcome, Truth truth) {
    this.outcome = outcome;
    this.truth = truth;
  }

  static SurveyOptions options(Set<FarEndKind> plugs, double waitSeconds) {
    return new SurveyOptions(
        0,
        plugs,
        1_500_000,
        (long) (waitSeconds * 1e6),
        0,
        0,
        BoardModels.plug(CodedPlug.nominal()),
        new CableFacts(Gauge.awg(18), Double.NaN, 22, 4),
        Criteria.standard());
  }

  static SurveyOptions options() {
    return options(EnumSet.of(FarEndKind.CODED, FarEndKind.TIE), 45);
  }

  static SimulatedSurvey run(String yaml, SurveyOptions options)
      throws FileException, InstrumentTrouble {
    return run(yaml, options, false);
  }

  static SimulatedSurvey runInPlace(String yaml, SurveyOptions options)
      throws FileException, InstrumentTrouble {
    return run(yaml, options, true);
  }

  private static SimulatedSurvey run(String yaml, SurveyOptions options, boolean inPlace)
      throws FileException, InstrumentTrouble {
    Bench bench = BenchFile.parse("drawn.yaml", yaml);
    SimulatedDevice device = new SimulatedDevice(bench);
    Truth truth = device.copper().truth();
    try (AgentInstrument instrument = instrument(device)) {
      SurveyRun run = new SurveyRun(instrument, BOARD, options, SurveyListener.silent());
      SurveyOutcome outcome = (inPlace ? run.inPlace() : run).run();
      return new SimulatedSurvey(outcome, truth);
    }
  }

  static AgentInstrument instrument(SimulatedDevice device) {
    return instrument(BenchTransport.of(device));
  }

  static AgentInstrument instrument(Transport transport) {
    return instrument(transport, () -> false);
  }

  static AgentInstrument instrument(Transport transport, BooleanSupplier cancelled) {
    return new AgentInstrument(
        transport,
        HostEndpoint.Timing.forBaud(921_600),
        new ScanTranslation(60)::step,
        BOARD.converterVolts(),
        cancelled,
        transport.nowMicros() + 1, // not the numbers of a survey before on the same device
        note -> {});
  }
}
