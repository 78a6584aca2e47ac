package bellwire.agent;

import bellwire.agent.board.Reading;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Samples;
import bellwire.link.ScanStep;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * Carries out steps in order, once or round after round: relays, switch state, conversions. The
 * relays stay closed from the first step that joins a port to a bus until the program ends or a
 * step wants the test load.
 *
 * <p>That switches and converter stood as told shows as they are set the next time. Until then a
 * step's readings are held back, and where it shows otherwise they are dropped.
 */
final class ScanRun {

  /** Takes each conversion in turn. */
  interface Readings {
    void take(int step, Reading reading, long nowMicros);
  }

  /**
   * @param joined whether it was read through the relays, and when
   */
  private record Held(int step, Reading reading, boolean joined, long micros) {}

  /** Many times what a cable needs through a closed switch, in microseconds. */
  private static final long DISCHARGE_MICROS = 2000;

  private final SensingBoard board;
  private final List<ScanStep> steps;
  private final Readings readings;
  private final LongSupplier clock;
  private final boolean rounds;
  private final boolean drives;
  private final long closeMicros;
  private final long openMicros;
  private final long dischargeMicros;

  private int index;
  private int taken;
  private final List<Held> held = new ArrayList<>();

  /** Their switches and converter were as told; whether the relays were shows at the next edge. */
  private final List<Held> proved = new ArrayList<>();

  private long stayedMicros = Long.MIN_VALUE;
  private boolean converting;
  private boolean relaysLost;
  private boolean discharging;
  private boolean closing;
  private long waitUntilMicros;

  /**
   * @param clock the agent's, in microseconds, read within a step: what is switched late in a step
   *     takes its time from there
   */
  ScanRun(
      SensingBoard board,
      BoardDescription description,
      LongSupplier clock,
      List<ScanStep> steps,
      Readings readings) {
    this(board, description, clock, steps, false, readings);
  }

  /**
   * @param rounds whether it begins anew after the last step, until {@link #cut}
   */
  ScanRun(
      SensingBoard board,
      BoardDescription description,
      LongSupplier clock,
      List<ScanStep> steps,
      boolean rounds,
      Readings readings) {
    this.board = board;
    this.clock = clock;
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

  /** The relays have stayed closed until then: what was read before is good. */
  void relaysStayed(long untilMicros) {
    stayedMicros = untilMicros;
    handOver();
  }

  /**
   * The watchdog has let the relays go: the heartbeat came too late. They close again in time. What
   * was read since the last edge in time was perhaps read without them.
   */
  void relaysDropped() {
    relaysLost = true;
    closing = true;
    held.replaceAll(this::ifLost);
    proved.replaceAll(this::ifLost);
    stayedMicros = clock.getAsLong();
    handOver();
  }

  private Held ifLost(Held one) {
    return one.joined() && one.micros() > stayedMicros
        ? new Held(one.step(), notConnected(one.reading()), true, one.micros())
        : one;
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
      Reading reading = board.poll(clock);
      if (reading == null) {
        return false;
      }
      take(step, reading);
    }
    return discharged(nowMicros);
  }

  /** Leaves out what is still to do; the cable is let go of in good order. */
  void cut() {
    index = steps.size();
    converting = false;
  }

  /** Conductors still joined are let go of first; what was read last is proved by the way. */
  private boolean discharged(long nowMicros) throws ChipTrouble {
    if (!board.connectAsked()) {
      if (!held.isEmpty()) {
        board.open();
        board.verifyConverter();
        release();
      }
      return true;
    }
    if (!discharging) {
      discharging = true;
      board.discharge();
      if (!held.isEmpty()) {
        board.verifyConverter();
        release();
      }
      waitUntilMicros = clock.getAsLong() + dischargeMicros;
    }
    return nowMicros >= waitUntilMicros && proved.isEmpty();
  }

  private boolean begin(ScanStep step, long nowMicros) throws ChipTrouble {
    boolean joins = (step.drive() | step.returned() | step.guard()) != 0;
    if (joins && !board.connectAsked()) {
      board.connect();
      closing = true; // the heartbeat's edge comes at the end of this step
      return false;
    } else if (step.testLoad() && board.connectAsked()) {
      if (!discharged(nowMicros)) {
        return false;
      }
      discharging = false;
      board.disconnect();
      waitUntilMicros = clock.getAsLong() + openMicros;
    } else if (closing) {
      closing = false;
      waitUntilMicros = Math.max(waitUntilMicros, nowMicros + closeMicros);
    }
    if (nowMicros < waitUntilMicros) {
      return false;
    }
    board.begin(step, clock);
    release();
    converting = true;
    relaysLost = false;
    taken = 0;
    return true;
  }

  private void take(ScanStep step, Reading reading) {
    Reading whole = relaysLost && board.connectAsked() ? notConnected(reading) : reading;
    held.add(new Held(index, whole, board.connectAsked(), clock.getAsLong()));
    taken++;
    if (taken == step.repeats()) {
      converting = false;
      index = rounds && index + 1 == steps.size() ? 0 : index + 1;
    }
  }

  private void release() {
    proved.addAll(held);
    held.clear();
    handOver();
  }

  /** In their order; a reading waits for those before it. */
  private void handOver() {
    int good = 0;
    while (good < proved.size() && known(proved.get(good))) {
      good++;
    }
    if (good > 0) {
      long nowMicros = clock.getAsLong();
      List<Held> ready = proved.subList(0, good);
      ready.forEach(one -> readings.take(one.step(), one.reading(), nowMicros));
      ready.clear();
    }
  }

  private boolean known(Held one) {
    return !one.joined() || one.micros() <= stayedMicros;
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
