package bellwire.simbench.cable;

import bellwire.board.BoardDescription;

/**
 * The board's interlock hardware: latch, heartbeat watchdog, and what feeds the relays. Knows times
 * and lines, no circuit.
 */
final class Interlock {
  static final long NEVER = WindowWatch.NEVER;

  private final long heartbeatNanos;
  private final long openNanos;
  private final long closeNanos;
  private final long holdNanos;
  private final WindowWatch.Window offWindow;
  private final WindowWatch.Window onWindow;

  private boolean tripped = true;
  private int flags;
  private boolean connectWanted;
  private boolean relaysClosed;
  private long relayMovesAt = NEVER;
  private long watchdogAt = NEVER;
  private long holdUntil = NEVER;

  Interlock() {
    BoardDescription board = BoardDescription.revisionA();
    heartbeatNanos = nanos(board, "heartbeat-micros");
    openNanos = nanos(board, "relay-open-micros");
    closeNanos = nanos(board, "relay-close-micros");
    holdNanos = nanos(board, "window-hold-micros");
    double off = board.limit("window-volts");
    offWindow = new WindowWatch.Window(-off, off);
    onWindow =
        new WindowWatch.Window(board.limit("window-low-volts"), board.limit("window-high-volts"));
  }

  static long nanos(BoardDescription board, String limit) {
    return Math.round(board.limit(limit) * 1000);
  }

  boolean tripped() {
    return tripped;
  }

  int flags() {
    return flags;
  }

  void flag(int ports) {
    flags |= ports;
  }

  boolean relaysClosed() {
    return relaysClosed;
  }

  /** The latch comes up set, the monoflop that watches the heartbeat run down. */
  void powerOn(long now) {
    tripped = true;
    flags = 0;
    connectWanted = false;
    watchdogAt = NEVER;
    feed(now);
  }

  void trip(int ports, long now) {
    tripped = true;
    flags |= ports;
    feed(now);
  }

  void clear(long now) {
    tripped = false;
    flags = 0;
    feed(now);
  }

  void connect(boolean wanted, long now) {
    connectWanted = wanted;
    feed(now);
  }

  void heartbeat(long now) {
    watchdogAt = now + heartbeatNanos;
    feed(now);
  }

  /** The comparators' window changes with the excitation, and some time after it. */
  void excitationEnded(long now) {
    holdUntil = now + holdNanos;
  }

  void excitationBegan() {
    holdUntil = NEVER;
  }

  WindowWatch.Window window(boolean excited) {
    return excited || holdUntil != NEVER ? onWindow : offWindow;
  }

  long nextEvent() {
    return Math.min(relayMovesAt, Math.min(watchdogAt, holdUntil));
  }

  /** Does what is due. */
  void happen(long now) {
    if (holdUntil <= now) {
      holdUntil = NEVER;
    }
    if (watchdogAt <= now) {
      watchdogAt = NEVER;
    }
    if (relayMovesAt <= now) {
      relayMovesAt = NEVER;
      relaysClosed = !relaysClosed;
    }
    feed(now);
  }

  private void feed(long now) {
    boolean fed = connectWanted && !tripped && watchdogAt != NEVER;
    if (fed == relaysClosed) {
      relayMovesAt = NEVER;
    } else if (relayMovesAt == NEVER) {
      relayMovesAt = now + (fed ? closeNanos : openNanos);
    }
  }
}
