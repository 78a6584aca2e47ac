package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.LastingLine;
import bellwire.app.link.AgentInstrument;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.chip.FaultyLine.Fault;
import bellwire.simbench.file.BenchFile;
import java.util.EnumSet;
import org.junit.jupiter.api.Test;

/**
 * A board that failed measures nothing until it is armed, and a survey looks for voltage before it
 * arms: after a chip had failed once, every survey was refused. Soak seed 12.
 */
class SurveyAfterTroubleTest {

  @Test
  void aChipThatFailedOnceRefusesNoLaterSurvey() throws Exception {
    String yaml = new RandomCable(3, RandomCable.Fault.NONE, 5).yaml(30, 60);
    SimulatedDevice device = new SimulatedDevice(BenchFile.parse("drawn.yaml", yaml));
    device.device("expanders").fail(Fault.STUCK_LOW, 0);
    assertThatThrownBy(() -> survey(device)).isInstanceOf(InstrumentTrouble.class);
    device.device("expanders").fail(Fault.NONE, 0);
    assertThat(survey(device).result()).isNotNull();
    device.close();
  }

  private static SurveyOutcome survey(SimulatedDevice device) throws Exception {
    SurveyOptions openOnly = SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 60);
    try (AgentInstrument instrument = SimulatedSurvey.instrument(new LastingLine(device))) {
      return new SurveyRun(instrument, SimulatedSurvey.BOARD, openOnly, SurveyListener.silent())
          .run();
    }
  }
}
