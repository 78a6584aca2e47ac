package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.SenseCalls;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * The device agent: a state machine stepped with the time as its argument. It carries out what the
 * host asks for as far as the interlock allows, and streams raw codes.
 *
 * <p>Rules that hold in every step, whatever the messages:
 *
 * <ul>
 *   <li>The interlock is read before anything is done. Where it is tripped, a program that drives
 *       ends at once and the board is put in its safe state.
 *   <li>A step of a program that joins or drives a port is begun, and a heartbeat edge written,
 *       only in a step that has read the interlock as clear; the heartbeat only while relays are
 *       wanted.
 *   <li>The latch is cleared only at a host's {@link Message.Arm}, after 100 ms with every port
 *       inside the window.
 *   <li>There is one activity at a time: a program, a watch or a vigil. So what drives ports and
 *       what listens to the call-sense connector never run together.
 * </ul>
 *
 * <p>The self-check needs the excitation, which the interlock's latch holds off; so it runs as part
 * of the first Arm, and that Arm is answered when it has ended: accepted means armed and checked. A
 * board that failed is checked again at the next Arm. Until a check has passed only programs that
 * drive nothing are taken; after a failed one, none.
 */
public final class Agent {
  private static final Activity.End STOPPED =
      new Activity.End(Outcome.STOPPED, "the host stopped it");
  private static final Activity.End LENGTH_OVER = new Activity.End(Outcome.DONE, "");
  private static final Activity.End TRIPPED =
      new Activity.End(Outcome.INTERLOCK, "the interlock tripped: a port is outside its window");
  private static final Activity.End HELD_UP =
      new Activity.End(
          Outcome.HELD_UP,
          "the agent was held up, the relays let go of a charged cable, and the interlock tripped");
  private static final Activity.End NOT_LATCHED =
      new Activity.End(
          Outcome.INTERLOCK,
          "a port stays outside its window and the interlock does not trip: take the board off the"
              + " cable and have it repaired");

  /** The board latches within 2 ms; and by now the heartbeat has been missing for long enough. */
  private static final long LATCH_MICROS = 100_000;

  private static final long SAFE_AGAIN_MICROS = 100_000;

  /** From relays that dropped out to the last trip that a cable's charge alone can cause. */
  private static final long CHARGE_MICROS = 20_000;

  private static final long NEVER = Long.MAX_VALUE;

  private final SensingBoard board;
  private final HostLink link;
  private final Activities activities;
  private final InterlockWatch interlock;
  private final Heartbeat heartbeat;
  private final Arming arming;
  private final Admission admission;

  private Message.@Nullable FromHost waiting;
  private @Nullable Activity activity;
  private long vigil;
  private long untilMicros = NEVER;
  private @Nullable ChipTrouble trouble;

  /** After a failure, when to try again to make the board safe; never where it is. */
  private long safeAgainMicros = NEVER;

  /** Since when each step has read the interlock as not clear while it has not tripped. */
  private long unlatchedMicros = NEVER;

  /** When the watchdog was last seen to have opened the relays under an activity. */
  private long relaysDroppedMicros = NEVER;

  /**
   * @param tickMicros time between steps, by which fast rates are refused or taken
   * @param clock the time that the steps are told, microseconds, at the moment it is asked
   */
  public Agent(
      SensingBoard board,
      BoardDescription description,
      HostLink link,
      long tickMicros,
      LongSupplier clock) {
    this.board = board;
    this.link = link;
    activities = new Activities(board, description, link, clock, tickMicros);
    interlock = new InterlockWatch(board);
    heartbeat = new Heartbeat(board, clock, (long) description.limit("heartbeat-micros"));
    arming = new Arming(board, description, interlock, clock);
    admission = new Admission(description, arming, interlock, tickMicros);
    link.selfCheck(SelfCheck.NOT_YET);
  }

  /**
   * One step; call it every tick. Never waits, never throws for trouble with board or link.
   *
   * @param dueMicros when the step should have begun
   */
  public void step(long nowMicros, long dueMicros) {
    try {
      interlock.read(nowMicros);
      sample(nowMicros, dueMicros);
    } catch (ChipTrouble e) {
      fail(e, nowMicros);
    }
    link.step(nowMicros);
    try {
      if (nowMicros >= safeAgainMicros) {
        makeSafe(nowMicros);
      }
      obeyInterlock(nowMicros);
      arming.prepare(nowMicros);
      for (Message.FromHost message = next(); message != null; message = next()) {
        handle(message, nowMicros);
      }
      advanceArming(nowMicros);
      advance(nowMicros);
      heartbeat.step(nowMicros, interlock.clear());
    } catch (ChipTrouble e) {
      fail(e, nowMicros);
    }
    if (interlock.changed(nowMicros)) {
      link.send(new Message.InterlockChanged(interlock.tell(nowMicros)), nowMicros);
    }
  }

  /** Opens and switches off everything; the last thing before the agent ends. */
  public void stop() throws ChipTrouble {
    board.safe();
  }

  private void sample(long nowMicros, long dueMicros) throws ChipTrouble {
    Activity running = activity;
    if (running != null) {
      if (heartbeat.dropped(nowMicros)) {
        relaysDroppedMicros = nowMicros;
        running.relaysDropped(nowMicros);
      } else {
        running.relaysStayed(heartbeat.stayedMicros());
      }
      running.sample(nowMicros, dueMicros, interlock.clear());
    }
  }

  private void obeyInterlock(long nowMicros) throws ChipTrouble {
    Activity running = activity;
    if (interlock.tripped()) {
      if (running != null && running.drives()) {
        boolean byCharge =
            relaysDroppedMicros != NEVER && nowMicros - relaysDroppedMicros <= CHARGE_MICROS;
        end(running, byCharge ? HELD_UP : TRIPPED, nowMicros);
      } else if (running == null && !board.atRest()) {
        board.safe();
      }
    }
    if (arming.boardReady()) {
      interlock.readFlags(nowMicros);
    }
  }

  /** The next request; while the board is starting, those that need it wait. */
  private Message.@Nullable FromHost next() {
    boolean ready = arming.boardReady() || trouble != null;
    Message.FromHost message = waiting == null ? link.poll() : waiting;
    boolean needsBoard =
        message instanceof Message.Run
            || message instanceof Message.Arm
            || message instanceof SenseCalls
            || message instanceof KeepVigil;
    waiting = needsBoard && !ready ? message : null;
    return waiting == null ? message : null;
  }

  private void handle(Message.FromHost message, long nowMicros) throws ChipTrouble {
    if (message instanceof Message.Arm arm) {
      arm(arm);
    } else if (message instanceof Message.Run run) {
      if (taken(run.request(), admission.run(run))) {
        begin(activities.program(run), nowMicros);
      }
    } else if (message instanceof SenseCalls sense) {
      if (taken(sense.request(), admission.senseCalls(sense))) {
        begin(activities.watch(sense), nowMicros);
      }
    } else if (message instanceof KeepVigil keep) {
      if (taken(keep.request(), admission.keepVigil(keep))) {
        vigil = keep.vigil();
        untilMicros = nowMicros + keep.lengthMicros();
        link.recording(true);
        begin(activities.vigil(keep), nowMicros);
      }
    } else if (message instanceof Message.Stop stop) {
      link.reply(new Message.Reply(stop.request(), true, ""));
      if (activity != null) {
        activity.finish(STOPPED);
      }
    } else if (message instanceof Message.Ping ping) {
      link.reply(
          new Message.Alive(ping.request(), interlock.state(nowMicros), vigil, link.diskBytes()));
    }
  }

  private void arm(Message.Arm arm) {
    if (activity != null) {
      refuse(arm.request(), activity.busy());
    } else if (arming.busy()) {
      refuse(arm.request(), "the board is already being armed");
    } else {
      trouble = null;
      safeAgainMicros = NEVER; // the reset that is due now does it
      arming.begin(arm.request());
    }
  }

  private boolean taken(long request, @Nullable String objection) {
    String now = admission.now(activity, trouble);
    String reason = now != null ? now : objection;
    if (reason != null) {
      refuse(request, reason);
    }
    return reason == null;
  }

  private void refuse(long request, String reason) {
    link.reply(new Message.Reply(request, false, reason));
  }

  private void begin(Activity next, long nowMicros) throws ChipTrouble {
    activity = next; // first: should a chip fail, it is closed
    next.begin(nowMicros);
  }

  private void advanceArming(long nowMicros) throws ChipTrouble {
    Message.Reply answer = arming.advance(nowMicros);
    if (answer != null) {
      link.selfCheck(arming.selfCheck());
      link.reply(answer);
    }
  }

  private void advance(long nowMicros) throws ChipTrouble {
    Activity running = activity;
    if (running == null) {
      return;
    }
    if (nowMicros >= untilMicros) {
      untilMicros = NEVER;
      running.finish(LENGTH_OVER);
    }
    if (running.drives() && !interlock.clear()) {
      // A port has just left its window: the latch will follow, or the next step goes on.
      unlatchedMicros = Math.min(unlatchedMicros, nowMicros);
      if (nowMicros - unlatchedMicros >= LATCH_MICROS) {
        end(running, NOT_LATCHED, nowMicros);
      }
      return;
    }
    unlatchedMicros = NEVER;
    Activity.End end = running.advance(nowMicros, interlock);
    if (end != null) {
      end(running, end, nowMicros);
    }
  }

  private void end(Activity running, Activity.End end, long nowMicros) throws ChipTrouble {
    board.safe();
    close(running, end, nowMicros);
  }

  private void close(Activity running, Activity.End end, long nowMicros) {
    activity = null;
    unlatchedMicros = NEVER;
    relaysDroppedMicros = NEVER;
    running.close(end, nowMicros);
    if (vigil != 0) {
      vigil = 0;
      untilMicros = NEVER;
      link.recording(false);
    }
  }

  private void fail(ChipTrouble cause, long nowMicros) {
    if (trouble != null) {
      return; // told once; the next Arm starts anew
    }
    trouble = cause;
    makeSafe(nowMicros);
    if (activity != null) {
      close(activity, new Activity.End(Outcome.TROUBLE, cause.reason()), nowMicros);
    }
    Message.Reply answer = arming.fail(cause.reason());
    link.selfCheck(arming.selfCheck());
    if (answer != null) {
      link.reply(answer);
    }
    link.send(new Message.Trouble(cause.chip(), cause.reason()), nowMicros);
  }

  /** Until it is done: no watchdog stands behind call wetting and dummy loads. */
  private void makeSafe(long nowMicros) {
    try {
      board.safe();
      safeAgainMicros = NEVER;
    } catch (ChipTrouble also) {
      // The board's own watchdog opens the relays, as no heartbeat follows.
      safeAgainMicros = nowMicros + SAFE_AGAIN_MICROS;
    }
  }
}
