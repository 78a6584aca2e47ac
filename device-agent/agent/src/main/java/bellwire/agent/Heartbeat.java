package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;

/** The edges that keep the connect relays fed, while they are wanted and may be. */
final class Heartbeat {
  private static final int EDGES_PER_TIMEOUT = 5;

  private final SensingBoard board;
  private final long timeoutMicros;
  private boolean beating;
  private long lastMicros;

  /**
   * @param timeoutMicros without an edge before the board's watchdog opens the relays
   */
  Heartbeat(SensingBoard board, long timeoutMicros) {
    this.board = board;
    this.timeoutMicros = timeoutMicros;
  }

  /**
   * @param clear whether this very step has read the interlock as clear
   */
  void step(long nowMicros, boolean clear) throws ChipTrouble {
    if (!board.connectAsked()) {
      beating = false;
      return;
    }
    if (clear && (!beating || nowMicros - lastMicros >= timeoutMicros / EDGES_PER_TIMEOUT)) {
      board.heartbeat();
      beating = true;
      lastMicros = nowMicros;
    }
  }

  /** Whether the watchdog has opened the relays for want of an edge. */
  boolean late(long nowMicros) {
    return beating && nowMicros - lastMicros > timeoutMicros;
  }
}
