package bellwire.app.survey;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.FarEndWatch.Sight;
import bellwire.analysis.survey.OpenPhase;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Rests;
import bellwire.analysis.survey.WindingPhase;

/**
 * Takes the open cable through its phase until the far end has stayed as it was: waits for a plug
 * to come off, measures again what moved, and tells a coil's kick from a foreign voltage.
 */
final class OpenCable {
  private static final int RESTARTS = 5;

  /** Trips of one survey that may be taken for a coil's kick. */
  private static final int MOST_KICKS = 3;

  private static final double JOINED_OHMS = 3000;
  private static final int ALL_PORTS = (1 << Ports.COUNT) - 1;

  private final Instrument instrument;
  private final Measuring measuring;
  private final BoardModel board;
  private final SurveyOptions options;
  private final SurveyListener listener;
  private final boolean inPlace;
  private int slow;
  private int windings;
  private int kicks;

  /**
   * @param inPlace whether what joins most conductors may be the equipment
   */
  OpenCable(
      Instrument instrument,
      Measuring measuring,
      BoardModel board,
      SurveyOptions options,
      SurveyListener listener,
      boolean inPlace) {
    this.instrument = instrument;
    this.measuring = measuring;
    this.board = board;
    this.options = options;
    this.listener = listener;
    this.inPlace = inPlace;
  }

  /** Mask of the ports that hardly came up when they were charged. */
  int slow() {
    return slow;
  }

  /** Mask of the ports with a winding. */
  int windings() {
    return windings;
  }

  /** The open phase, again from its start if the far end changed meanwhile. */
  OpenResult measured() throws InstrumentTrouble, InterlockTripped, VoltageFound {
    for (int attempt = 0; ; attempt++) {
      OpenPhase phase = once(attempt == 0);
      measuring.assureDead();
      OpenResult result = phase.result();
      slow = phase.slow();
      windings = phase.windings();
      measuring.rest(new Rests(phase.restless()));
      FarEndWatch watch = new FarEndWatch(board, result, 0);
      Sight after = measuring.look(watch);
      boolean still = after.kind() == FarEndKind.OPEN;
      if (still && attempt < RESTARTS && gone(watch)) {
        listener.note("what was on the far end came off during the measurement: measured again");
        continue;
      }
      if (still && (inPlace || !somethingIsOn(result))) {
        return result;
      }
      listener.note(
          still
              ? "most conductors are joined: take the plug off the far end, lift what is landed there"
              : "the far end changed during the measurement ("
                  + after.words()
                  + "): take it off again");
      boolean changed = waitForOpen(watch, still);
      if (still && !changed) {
        listener.note("went on: what is joined counts as a fault of the cable");
        return result;
      }
      if (attempt >= RESTARTS) {
        throw new InstrumentTrouble(
            "the far end did not stay still through any of "
                + (attempt + 1)
                + " measurements: hands off until the open cable is measured. A small voltage on the cable looks"
                + " the same: prove it dead again, then start anew");
      }
    }
  }

  /**
   * Once through the open phase. A winding that hum keeps a current in kicks when its port is let
   * go of, and trips the interlock with nothing foreign on the cable: where the look for voltage
   * finds none and a winding shows at a port that tripped, the phase begins again and leaves it
   * held.
   */
  private OpenPhase once(boolean first) throws InstrumentTrouble, InterlockTripped, VoltageFound {
    for (int kicking = 0; ; ) {
      OpenPhase phase = new OpenPhase(board, ALL_PORTS, options.declaredPorts(), kicking);
      try {
        measuring.perform(
            first ? "far end open: shorts and leakage" : "far end open, again", phase);
        return phase;
      } catch (InterlockTripped trip) {
        int known = kicking;
        kicking |= kicked(trip);
        if (kicking == known) {
          throw trip;
        }
        listener.note(
            "interlock tripped, no voltage found: the kick of a coil at "
                + Ports.names(Ports.list(kicking))
                + ". Measured again, with its ends held");
      }
    }
  }

  /**
   * Mask of the ports with a winding, where nothing but such ports tripped the interlock and no
   * voltage shows, with the relays open before anything is driven and again after it; otherwise
   * none, and the trip stands. A pulse on a coil's own ends that is over before the first look
   * cannot be told from the coil's kick: hence no more than a few.
   */
  private int kicked(InterlockTripped trip) throws InstrumentTrouble, InterlockTripped {
    if (++kicks > MOST_KICKS || trip.flags() == 0) {
      return 0;
    }
    try {
      measuring.assureDead();
      if (!instrument.arm().isEmpty()) {
        return 0;
      }
      WindingPhase phase = new WindingPhase(board, ALL_PORTS, ALL_PORTS);
      measuring.perform("coils", phase);
      measuring.assureDead();
      if (!instrument.arm().isEmpty()) {
        return 0;
      }
      return (trip.flags() & ~phase.windings()) == 0 ? phase.windings() : 0;
    } catch (VoltageFound voltage) {
      return 0; // the trip stands, and the voltage is looked for again with it
    }
  }

  /** By two rounds: hum may spoil one. */
  private boolean gone(FarEndWatch watch) throws InstrumentTrouble, InterlockTripped {
    if (!watch.gone()) {
      return false;
    }
    measuring.look(watch);
    return watch.gone();
  }

  /** Whether so many conductors hang together that it looks like a plug rather than a fault. */
  private static boolean somethingIsOn(OpenResult result) {
    int joined = result.mostJoined(JOINED_OHMS);
    return joined > 2 && 2 * joined > result.conductors().size();
  }

  /**
   * Waits, within the waiting time, for the far end to look as at the phase's start, or where that
   * was the trouble, to look different.
   *
   * @return whether it did
   */
  private boolean waitForOpen(FarEndWatch watch, boolean different)
      throws InstrumentTrouble, InterlockTripped {
    double[] before = watch.lastOhms();
    long until = measuring.micros() + options.waitMicros();
    while (measuring.micros() < until) {
      Sight sight = measuring.look(watch);
      if (different ? !watch.unchangedSince(before) : sight.kind() == FarEndKind.OPEN) {
        return true;
      }
      listener.waiting(
          different ? "take the plug off" : "leave the far end open",
          different ? "joined as before" : sight.words(),
          (until - measuring.micros()) / 1_000_000);
    }
    return false;
  }
}
