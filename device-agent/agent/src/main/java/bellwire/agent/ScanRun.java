package bellwire.agent;

import bellwire.agent.board.Reading;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Samples;
import bellwire.link.ScanStep;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Carries out steps in order, once or round after round: relays, switch state, conversions. The
 * relays stay closed from the first step that joins a port to a bus until the program ends or a
 * step wants the test load.
 */
final class ScanRun {

  /** Takes each conversion in turn. */
  interface Readings {
    void take(int step, Reading reading, long nowMicros);
  }

  /** Many times what a cable needs through a closed switch, in microseconds. */
  private static final long DISCHARGE_MICROS = 2000;

  private final SensingBoard board;
  private final List<ScanStep> steps;
  private final Readings readings;
  private final boolean rounds;
  private final boolean drives;
  private final long closeMicros;
  private final long openMicros;
  private final long dischargeMicros;

  private int index;
  private int taken;
  private boolean converting;
  private boolean relaysLost;
  private boolean discharging;
  private long waitUntilMicros;

  ScanRun(
      SensingBoard board, BoardDescription description, List<ScanStep> steps, Readings readings) {
    this(board, description, steps, false, readings);
  }

  /**
   * @param rounds whether it begins anew after the last step, until {@link #cut}
   */
  ScanRun(
      SensingBoard board,
      BoardDescription description,
      List<ScanStep> steps,
      boolean rounds,
      Readings readings) {
    this.board = board;
    this.steps = steps;
    this.rounds = rounds;
    this.readings = readings;
    drives = drives(steps);
    closeMicros = (long) description.limit("relay-close-micros");
    openMicros = (long) description.limit("relay-open-micros");
    dischargeMicros = dischargeMicros(description);
  }

  /** Let go of while the window is still narrow, a cable beside mains wiring would leave it. */
  static long dischargeMicros(BoardDescription description) {
    return DISCHARGE_MICROS + (long) description.limit("window-hold-micros");
  }

  static boolean drives(List<ScanStep> steps) {
    return steps.stream().anyMatch(ScanStep::drives);
  }

  /** Whether any step needs the interlock clear. */
  boolean drives() {
    return drives;
  }

  /** The watchdog has let the relays go: the heartbeat came too late. They close again in time. */
  void relaysDropped(long nowMicros) {
    relaysLost = true;
    waitUntilMicros = Math.max(waitUntilMicros, nowMicros + closeMicros);
  }

  /**
   * Goes on as far as it can without waiting.
   *
   * @return whether all steps are done
   */
  boolean advance(long nowMicros) throws ChipTrouble {
    while (index < steps.size()) {
      ScanStep step = steps.get(index);
      if (!converting && !begin(step, nowMicros)) {
        return false;
      }
      Reading reading = board.poll(nowMicros);
      if (reading == null) {
        return false;
      }
      take(step, reading, nowMicros);
    }
    return discharged(nowMicros);
  }

  /** Leaves out what is still to do; the cable is let go of in good order. */
  void cut() {
    index = steps.size();
    converting = false;
  }

  private boolean discharged(long nowMicros) throws ChipTrouble {
    if (!board.connectAsked()) {
      return true;
    }
    if (!discharging) {
      discharging = true;
      board.discharge();
      waitUntilMicros = nowMicros + dischargeMicros;
    }
    return nowMicros >= waitUntilMicros;
  }

  private boolean begin(ScanStep step, long nowMicros) throws ChipTrouble {
    boolean joins = (step.drive() | step.returned() | step.guard()) != 0;
    if (joins && !board.connectAsked()) {
      board.connect();
      waitUntilMicros = nowMicros + closeMicros;
    } else if (step.testLoad() && board.connectAsked()) {
      if (!discharged(nowMicros)) {
        return false;
      }
      discharging = false;
      board.disconnect();
      waitUntilMicros = nowMicros + openMicros;
    }
    if (nowMicros < waitUntilMicros) {
      return false;
    }
    board.begin(step, nowMicros);
    converting = true;
    relaysLost = false;
    taken = 0;
    return true;
  }

  private void take(ScanStep step, Reading reading, long nowMicros) {
    Reading whole = relaysLost && board.connectAsked() ? notConnected(reading) : reading;
    readings.take(index, whole, nowMicros);
    taken++;
    if (taken == step.repeats()) {
      converting = false;
      index = rounds && index + 1 == steps.size() ? 0 : index + 1;
    }
  }

  private static Reading notConnected(Reading reading) {
    return new Reading(
        reading.code(),
        reading.deviceMicros(),
        reading.chain(),
        reading.setup(),
        reading.flags() | Samples.NOT_CONNECTED);
  }

  /**
   * Why a program cannot be carried out as asked, or null where it can. Conversions back to back
   * need a result to be fetched before the next one ends; with a step every {@code tickMicros}, a
   * quarter of that to spare. Single conversions are free of this.
   */
  static @Nullable String objection(List<ScanStep> steps, long tickMicros) {
    for (int i = 0; i < steps.size(); i++) {
      ScanStep step = steps.get(i);
      double periodMicros = 1e6 / step.rate().perSecond();
      if (step.repeats() > 1 && periodMicros < 1.25 * tickMicros) {
        return "conversions back to back come faster than they can be fetched: step="
            + i
            + " rate="
            + step.rate()
            + " repeats="
            + step.repeats();
      }
    }
    return null;
  }
}
