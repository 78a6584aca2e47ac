package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Message.Interlock;

/**
 * What the board's interlock says, read first thing in every step. The hardware acts by itself;
 * this only looks, and decides what the software may still do.
 *
 * <p>A voltage from the mains crosses the window twice a cycle, so the live line counts as outside
 * until it has been clear for {@link #CLEAR_MICROS}, which is also what a re-arm waits for.
 */
final class InterlockWatch {
  static final long CLEAR_MICROS = 100_000;
  private static final long UNSEEN_MICROS = 20_000;
  private static final long FLAGS_EVERY_MICROS = 50_000;
  private static final Interlock UNKNOWN = new Interlock(true, true, 0);

  private final SensingBoard board;
  private boolean tripped = true;
  private boolean outside = true;
  private long outsideMicros;
  private boolean started;
  private long readMicros;
  private int flags;
  private long flagsMicros;
  private boolean flagsDue = true;
  private Interlock told = UNKNOWN;

  InterlockWatch(SensingBoard board) {
    this.board = board;
  }

  /** Reads both lines. Where that fails, the interlock counts as tripped. */
  void read(long nowMicros) throws ChipTrouble {
    boolean before = tripped;
    if (!started || nowMicros - readMicros > UNSEEN_MICROS) {
      started = true;
      outsideMicros = nowMicros; // nobody looked: it may have been outside
    }
    readMicros = nowMicros;
    if (outside) {
      outsideMicros = nowMicros; // until just before this look, for all that is known
    }
    tripped = true;
    outside = true;
    boolean trippedNow;
    boolean outsideNow;
    try {
      trippedNow = board.interlockTripped();
      outsideNow = board.interlockOutside();
    } catch (ChipTrouble e) {
      outsideMicros = nowMicros;
      throw e;
    }
    tripped = trippedNow;
    outside = outsideNow;
    if (outside) {
      outsideMicros = nowMicros;
    }
    flagsDue |= tripped != before;
  }

  /**
   * Brings the ports' flags up to date: at each change of the latch, and now and then while set.
   */
  void readFlags(long nowMicros) throws ChipTrouble {
    if (flagsDue || (tripped && nowMicros - flagsMicros >= FLAGS_EVERY_MICROS)) {
      flags = board.interlockFlags();
      flagsMicros = nowMicros;
      flagsDue = false;
    }
  }

  /** Whether this step's reading lets anything be connected, driven or kept alive. */
  boolean clear() {
    return !tripped && !outside;
  }

  boolean tripped() {
    return tripped;
  }

  boolean outside() {
    return outside;
  }

  /** Whether every port has been inside the window for long enough to re-arm. */
  boolean clearLongEnough(long nowMicros) {
    return !outside && nowMicros - outsideMicros >= CLEAR_MICROS;
  }

  Interlock state(long nowMicros) {
    return new Interlock(tripped, !clearLongEnough(nowMicros), flags);
  }

  /** Whether the state differs from what was last told. No garbage is made to find out. */
  boolean changed(long nowMicros) {
    return told.tripped() != tripped
        || told.outsideNow() == clearLongEnough(nowMicros)
        || told.flags() != flags
        || told == UNKNOWN;
  }

  /** The state, which from now on counts as told. */
  Interlock tell(long nowMicros) {
    told = state(nowMicros);
    return told;
  }
}
