package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
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
 *   <li>A program of the ports and a watch of the call-sense connector never run together.
 * </ul>
 *
 * <p>The self-check needs the excitation, which the interlock's latch holds off; so it runs as part
 * of the first Arm, and that Arm is answered when it has ended: accepted means armed and checked. A
 * board that failed is checked again at the next Arm. Until a check has passed only programs that
 * drive nothing are taken; after a failed one, none.
 */
public final class Agent {
  private final SensingBoard board;
  private final BoardDescription description;
  private final HostLink link;
  private final long tickMicros;
  private final InterlockWatch interlock;
  private final Heartbeat heartbeat;
  private final Arming arming;
  private final CallWatch calls;

  private Message.@Nullable FromHost waiting;
  private @Nullable ScanRun scan;
  private boolean stopped;
  private @Nullable SampleBatch batch;
  private @Nullable ChipTrouble trouble;

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
    this.description = description;
    this.link = link;
    this.tickMicros = tickMicros;
    interlock = new InterlockWatch(board);
    heartbeat = new Heartbeat(board, (long) description.limit("heartbeat-micros"));
    arming = new Arming(board, description, interlock);
    calls = new CallWatch(board, description, link, clock, tickMicros);
    link.selfCheck(SelfCheck.NOT_YET);
  }

  /**
   * One step; call it every tick. Never waits, never throws for trouble with board or link.
   *
   * @param dueMicros when the step should have begun
   */
  public void step(long nowMicros, long dueMicros) {
    sampleCalls(nowMicros, dueMicros);
    readInterlock(nowMicros);
    link.step(nowMicros);
    try {
      obeyInterlock(nowMicros);
      arming.prepare(nowMicros);
      for (Message.FromHost message = next(); message != null; message = next()) {
        handle(message, nowMicros);
      }
      advanceArming(nowMicros);
      advanceScan(nowMicros);
      calls.advance(nowMicros, interlock);
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

  private void sampleCalls(long nowMicros, long dueMicros) {
    try {
      calls.sample(nowMicros, dueMicros);
    } catch (ChipTrouble e) {
      fail(e, nowMicros);
    }
  }

  private void readInterlock(long nowMicros) {
    try {
      interlock.read(nowMicros);
    } catch (ChipTrouble e) {
      fail(e, nowMicros);
    }
  }

  private void obeyInterlock(long nowMicros) throws ChipTrouble {
    if (interlock.tripped() && !board.atRest()) {
      ScanRun running = scan;
      if (running == null || running.drives()) {
        board.safe();
      }
    }
    if (interlock.tripped() && scan != null && scan.drives()) {
      end(Outcome.INTERLOCK, "the interlock tripped: a port is outside its window", nowMicros);
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
            || message instanceof Message.SenseCalls;
    waiting = needsBoard && !ready ? message : null;
    return waiting == null ? message : null;
  }

  private void handle(Message.FromHost message, long nowMicros) throws ChipTrouble {
    if (message instanceof Message.Arm arm) {
      arm(arm);
    } else if (message instanceof Message.Run run) {
      String objection = objection(run);
      if (objection == null) {
        SampleBatch samples = new SampleBatch(run.program(), link);
        batch = samples;
        stopped = false;
        scan = new ScanRun(board, description, run.steps(), samples);
      }
      reply(run.request(), objection);
    } else if (message instanceof Message.Stop stop) {
      if (scan != null) {
        scan.cut();
        stopped = true;
      }
      reply(stop.request(), null);
      calls.end(Outcome.STOPPED, "the host stopped it", nowMicros);
    } else if (message instanceof Message.SenseCalls sense) {
      String objection = objection(sense);
      if (objection == null) {
        calls.begin(sense, nowMicros);
      } else {
        reply(sense.request(), objection);
      }
    } else if (message instanceof Message.Ping ping) {
      link.reply(new Message.Alive(ping.request(), interlock.state(nowMicros), 0, 0));
    }
  }

  private void arm(Message.Arm arm) {
    String busy = busy();
    if (busy != null) {
      reply(arm.request(), busy);
    } else if (arming.busy()) {
      reply(arm.request(), "the board is already being armed");
    } else {
      trouble = null;
      arming.begin(arm.request());
    }
  }

  private @Nullable String busy() {
    if (scan != null) {
      return "a program is running";
    }
    return calls.busy() ? "the call-sense connector is being watched" : null;
  }

  private @Nullable String objection(Message.SenseCalls sense) {
    String busy = busy();
    if (busy != null) {
      return busy;
    } else if (trouble != null) {
      return "the board is in trouble: " + trouble;
    } else if (arming.busy() || !arming.boardReady()) {
      return "the board is being armed or is starting";
    }
    return calls.objection(sense, interlock);
  }

  private @Nullable String objection(Message.Run run) {
    String busy = busy();
    if (busy != null) {
      return busy;
    } else if (trouble != null) {
      return "the board is in trouble: " + trouble;
    } else if (arming.busy() || !arming.boardReady()) {
      return "the board is being armed or is starting";
    } else if (arming.failed()) {
      return arming.selfCheck();
    } else if (ScanRun.drives(run.steps())) {
      if (!interlock.clear()) {
        return "the interlock is not clear: nothing may be connected or driven";
      } else if (!arming.selfCheck().isEmpty()) {
        return "self-check " + arming.selfCheck();
      }
    }
    return ScanRun.objection(run.steps(), tickMicros);
  }

  private void advanceArming(long nowMicros) throws ChipTrouble {
    Message.Reply answer = arming.advance(nowMicros);
    if (answer != null) {
      link.selfCheck(arming.selfCheck());
      link.reply(answer);
    }
  }

  private void advanceScan(long nowMicros) throws ChipTrouble {
    ScanRun running = scan;
    SampleBatch samples = batch;
    if (running == null || samples == null) {
      return;
    }
    if (running.drives() && !interlock.clear()) {
      return; // a port has just left its window: the latch will follow, or the next step goes on
    }
    if (heartbeat.late(nowMicros)) {
      running.relaysDropped(nowMicros);
    }
    if (running.advance(nowMicros)) {
      end(
          stopped ? Outcome.STOPPED : Outcome.DONE,
          stopped ? "the host stopped it" : "",
          nowMicros);
    } else {
      samples.flushIfOld(nowMicros);
    }
  }

  private void end(Outcome outcome, String reason, long nowMicros) throws ChipTrouble {
    SampleBatch samples = batch;
    scan = null;
    batch = null;
    if (samples != null) {
      samples.flush(nowMicros);
      link.send(new Ended(samples.program(), outcome, reason), nowMicros);
    }
    board.safe();
  }

  private void fail(ChipTrouble cause, long nowMicros) {
    if (trouble != null) {
      return; // told once; the next Arm starts anew
    }
    trouble = cause;
    try {
      board.safe();
    } catch (ChipTrouble also) {
      // The board's own watchdog opens the relays, as no heartbeat follows.
    }
    SampleBatch samples = batch;
    scan = null;
    batch = null;
    if (samples != null) {
      samples.flush(nowMicros);
      link.send(new Ended(samples.program(), Outcome.TROUBLE, cause.reason()), nowMicros);
    }
    calls.fail(cause.reason(), nowMicros);
    Message.Reply answer = arming.fail(cause.reason());
    link.selfCheck(arming.selfCheck());
    if (answer != null) {
      link.reply(answer);
    }
    link.send(new Message.Trouble(cause.chip(), cause.reason()), nowMicros);
  }

  private void reply(long request, @Nullable String objection) {
    link.reply(new Message.Reply(request, objection == null, objection == null ? "" : objection));
  }
}
