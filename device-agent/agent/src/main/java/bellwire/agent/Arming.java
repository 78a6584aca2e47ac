package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.chip.Converter;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Reply;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * From a host's Arm to its answer: the board's reset where due, the wait for a clear interlock, the
 * re-arm pulse, the self-check where none has passed.
 */
final class Arming {

  private enum Stage {
    IDLE,
    WAIT_CLEAR,
    PULSE,
    CHECK
  }

  private enum Reset {
    DUE,
    UNDER_WAY,
    SETTLING,
    DONE
  }

  private final SensingBoard board;
  private final BoardDescription description;
  private final InterlockWatch interlock;
  private final LongSupplier clock;
  private Stage stage = Stage.IDLE;
  private Reset reset = Reset.DUE;
  private long resetMicros;
  private long request;
  private String selfCheck = SelfCheck.NOT_YET;
  private boolean failed;
  private @Nullable SelfCheck check;
  private @Nullable ScanRun checkRun;

  Arming(
      SensingBoard board,
      BoardDescription description,
      InterlockWatch interlock,
      LongSupplier clock) {
    this.board = board;
    this.description = description;
    this.interlock = interlock;
    this.clock = clock;
  }

  boolean boardReady() {
    return reset == Reset.DONE;
  }

  boolean busy() {
    return stage != Stage.IDLE;
  }

  /** Empty when passed, otherwise why the board refuses to measure. */
  String selfCheck() {
    return selfCheck;
  }

  /** Whether a self-check or a chip failed, and no check has passed since. */
  boolean failed() {
    return failed;
  }

  /** Takes up a request; {@link #advance} will answer it. */
  void begin(long request) {
    this.request = request;
    stage = Stage.WAIT_CLEAR;
    if (failed) {
      reset = Reset.DUE;
    }
  }

  /** Resets the chips where that is due: at the start, and after trouble. */
  void prepare(long nowMicros) throws ChipTrouble {
    if (failed && stage == Stage.IDLE) {
      return; // only an Arm tries a failed board again
    }
    if (reset == Reset.DUE) {
      board.beginReset();
      resetMicros = clock.getAsLong();
      reset = Reset.UNDER_WAY;
    } else if (reset == Reset.UNDER_WAY && nowMicros - resetMicros > 2 * Converter.RESET_MICROS) {
      board.finishReset();
      resetMicros = clock.getAsLong();
      reset = Reset.SETTLING;
    } else if (reset == Reset.SETTLING && nowMicros - resetMicros > Converter.REFERENCE_MICROS) {
      reset = Reset.DONE;
    }
  }

  /** Goes on; the answer once there is one. */
  @Nullable Reply advance(long nowMicros) throws ChipTrouble {
    if (!boardReady()) {
      return null;
    }
    return switch (stage) {
      case IDLE -> null;
      case WAIT_CLEAR -> waitClear(nowMicros);
      case PULSE -> endPulse();
      case CHECK -> advanceCheck(nowMicros);
    };
  }

  private @Nullable Reply waitClear(long nowMicros) throws ChipTrouble {
    if (interlock.outside()) {
      return refuse("a port is outside the interlock's window");
    }
    if (!interlock.tripped()) {
      return armed();
    }
    if (interlock.clearLongEnough(nowMicros)) {
      board.rearm(true);
      stage = Stage.PULSE;
    }
    return null;
  }

  private @Nullable Reply endPulse() throws ChipTrouble {
    board.rearm(false);
    if (!interlock.clear()) {
      return refuse("the interlock tripped again at once");
    }
    return armed();
  }

  private @Nullable Reply armed() {
    if (selfCheck.isEmpty()) {
      return accept();
    }
    SelfCheck next = new SelfCheck(description);
    check = next;
    checkRun = new ScanRun(board, description, clock, SelfCheck.steps(), next);
    stage = Stage.CHECK;
    return null;
  }

  private @Nullable Reply advanceCheck(long nowMicros) throws ChipTrouble {
    SelfCheck running = check;
    ScanRun run = checkRun;
    if (running == null || run == null) {
      throw new IllegalStateException("stage=" + stage);
    }
    if (!interlock.clear()) {
      board.safe();
      return refuse("the interlock tripped during the self-check");
    }
    if (!run.advance(nowMicros)) {
      return null;
    }
    board.safe();
    selfCheck = running.verdict();
    failed = !selfCheck.isEmpty();
    return failed ? refuse(selfCheck) : accept();
  }

  /** A chip failed: what it was asked for is refused, and the board must be checked anew. */
  @Nullable Reply fail(String reason) {
    selfCheck = reason;
    failed = true;
    reset = Reset.DUE;
    return stage == Stage.IDLE ? null : refuse(reason);
  }

  private Reply accept() {
    stage = Stage.IDLE;
    return new Reply(request, true, "");
  }

  private Reply refuse(String reason) {
    stage = Stage.IDLE;
    check = null;
    checkRun = null;
    return new Reply(request, false, reason);
  }
}
