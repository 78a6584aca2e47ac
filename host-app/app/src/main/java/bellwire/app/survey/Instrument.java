package bellwire.app.survey;

import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleConsumer;

/** The sensing board as the survey uses it, wherever it is. Not for use by several threads. */
public interface Instrument extends AutoCloseable {

  /** Who is at the other end. */
  Identity open() throws InstrumentTrouble;

  /**
   * Asks for the interlock's latch to be cleared.
   *
   * @return empty when it is clear now, otherwise why not
   */
  String arm() throws InstrumentTrouble;

  /**
   * Measures the probes in order.
   *
   * @param progress told the share done, 0 to 1
   * @throws InterlockTripped when the interlock tripped on the way; nothing is driven any more
   */
  Measured measure(List<Probe> probes, DoubleConsumer progress)
      throws InstrumentTrouble, InterlockTripped;

  /** Stops what runs and lets go of the board. */
  @Override
  void close();

  /**
   * @param revision of the board
   * @param agentVersion of the agent's software
   */
  record Identity(String revision, String agentVersion) {}

  /**
   * @param readings one for each probe
   * @param startMicros device time at which the first conversion began, settling included
   * @param endMicros device time of the last
   * @param conversionMicros what the conversions and their settling take by themselves
   */
  record Measured(List<Reading> readings, long startMicros, long endMicros, long conversionMicros) {

    /** This and what was measured after it. */
    public Measured then(Measured later) {
      List<Reading> all = new ArrayList<>(readings);
      all.addAll(later.readings());
      return new Measured(
          all, startMicros, later.endMicros(), conversionMicros + later.conversionMicros());
    }
  }
}
