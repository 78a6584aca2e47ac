package bellwire.app.survey;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.ForeignCheck;
import bellwire.analysis.survey.Phase;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Rests;
import bellwire.app.survey.Instrument.Measured;
import bellwire.app.survey.SurveyOutcome.PhaseTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The board while a survey uses it: carries out phases, looks at the far end and for voltage, and
 * keeps the time that each took.
 */
final class Measuring implements TieRounds.Hands {
  private final Instrument instrument;
  private final BoardModel board;
  private final SurveyListener listener;
  private final List<PhaseTime> times = new ArrayList<>();
  private Rests rests = new Rests(0);
  private long deviceMicros;

  Measuring(Instrument instrument, BoardModel board, SurveyListener listener) {
    this.instrument = instrument;
    this.board = board;
    this.listener = listener;
  }

  /** From now on the windings on these ports rest between looks. */
  void rest(Rests rests) {
    this.rests = rests;
  }

  Rests rests() {
    return rests;
  }

  List<PhaseTime> times() {
    return List.copyOf(times);
  }

  @Override
  public long micros() {
    return deviceMicros;
  }

  @Override
  public Sight look(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped {
    Measured measured = instrument.measure(rests.between(watch.round()), share -> {});
    deviceMicros = measured.endMicros();
    return watch.observe(rests.without(measured.readings()), deviceMicros);
  }

  @Override
  public void perform(String title, Phase phase) throws InstrumentTrouble, InterlockTripped {
    // The looks for voltage between the phases are routine: only the first is announced.
    if (!(phase instanceof ForeignCheck) || times.isEmpty()) {
      listener.phase(title);
    }
    long start = -1;
    long conversions = 0;
    int readings = 0;
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      Measured measured = instrument.measure(probes, listener::progress);
      start = start < 0 ? measured.startMicros() : start;
      deviceMicros = measured.endMicros();
      conversions += measured.conversionMicros();
      readings += measured.readings().size();
      phase.accept(measured.readings());
    }
    times.add(new PhaseTime(title, start < 0 ? 0 : deviceMicros - start, conversions, readings));
  }

  /**
   * A look with every relay open, before and after each phase: what stays below the interlock's
   * window would still be in the readings. One that finds a voltage is done twice, as it may have
   * come in the middle of the first.
   */
  @Override
  public void assureDead() throws InstrumentTrouble, InterlockTripped, VoltageFound {
    assureDead(false);
  }

  /**
   * @param suspicious after a trip: a smaller voltage counts, too
   */
  void assureDead(boolean suspicious) throws InstrumentTrouble, InterlockTripped, VoltageFound {
    Foreign seen = lookForVoltage(suspicious);
    if (seen != null) {
      Foreign again = lookForVoltage(suspicious);
      throw new VoltageFound(again == null ? seen : again);
    }
  }

  private @Nullable Foreign lookForVoltage(boolean suspicious)
      throws InstrumentTrouble, InterlockTripped {
    ForeignCheck check = new ForeignCheck(board, suspicious);
    perform("interlock: is anything live?", check);
    return check.foreign();
  }
}
