package bellwire.simbench.cable;

import bellwire.board.BoardDescription;
import bellwire.simbench.file.Bench;

/** Works a board by its lines alone, as hardware would see it. */
final class Driver {
  static final BoardDescription BOARD = BoardDescription.revisionA();
  static final long MILLI = 1_000_000;
  final SimulatedCopper copper;
  long now;

  Driver(Bench bench) {
    copper = new SimulatedCopper(bench);
  }

  static long word(int drive, int returned, int guard, boolean excite, String range) {
    long word = excite ? 1L << BOARD.chainBit("excite") : 0;
    for (int p = 0; p < 17; p++) {
      word |= (drive >> p & 1) != 0 ? 1L << BOARD.chainBit(p, "drive") : 0;
      word |= (returned >> p & 1) != 0 ? 1L << BOARD.chainBit(p, "return") : 0;
      word |= (guard >> p & 1) != 0 ? 1L << BOARD.chainBit(p, "guard") : 0;
    }
    return range.isEmpty() ? word : word | 1L << BOARD.chainBit(range);
  }

  /** Re-arms, feeds the relays, and waits until they are closed. */
  Driver connect() {
    copper.rearm(now);
    copper.control(true, false, now);
    copper.heartbeat(now);
    return waitFor(5 * MILLI);
  }

  /** Lets time pass with the heart beating. */
  Driver waitFor(long nanos) {
    long end = now + nanos;
    while (now < end) {
      now = Math.min(end, now + 20 * MILLI);
      copper.heartbeat(now);
    }
    return this;
  }

  Driver latch(long word) {
    copper.latchChain(word, now);
    return this;
  }
}
