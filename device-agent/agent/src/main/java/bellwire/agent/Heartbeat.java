package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import java.util.function.LongSupplier;

/** The edges that keep the connect relays fed, while they are wanted and may be. */
final class Heartbeat {
  private static final int EDGES_PER_TIMEOUT = 5;

  private final SensingBoard board;
  private final LongSupplier clock;
  private final long timeoutMicros;
  private boolean beating;
  private boolean dropped;
  private long lastMicros;
  private long stayedMicros = Long.MIN_VALUE;

  /**
   * @param clock the agent's, in microseconds, read within a step
   * @param timeoutMicros without an edge before the board's watchdog opens the relays
   */
  Heartbeat(SensingBoard board, LongSupplier clock, long timeoutMicros) {
    this.board = board;
    this.clock = clock;
    this.timeoutMicros = timeoutMicros;
  }

  /**
   * @param clear whether this very step has read the interlock as clear
   */
  void step(long nowMicros, boolean clear) throws ChipTrouble {
    if (!board.connectAsked()) {
      beating = false;
      dropped = false;
      return;
    }
    if (clear && (!beating || nowMicros - lastMicros >= timeoutMicros / EDGES_PER_TIMEOUT)) {
      board.heartbeat();
      long edgeMicros = clock.getAsLong();
      boolean late = beating && edgeMicros - lastMicros > timeoutMicros; // held up in this step
      dropped |= late;
      stayedMicros = beating && !late ? edgeMicros : stayedMicros;
      beating = true;
      lastMicros = nowMicros;
    }
  }

  /** Until when the relays are known to have stayed closed, since the edges came in time. */
  long stayedMicros() {
    return stayedMicros;
  }

  /** Whether the watchdog has opened the relays for want of an edge since this was last asked. */
  boolean dropped(long nowMicros) {
    boolean was = dropped;
    dropped = false;
    return was || (beating && nowMicros - lastMicros > timeoutMicros);
  }
}
