package bellwire.agent;

import bellwire.link.ScanStep;

/**
 * Which ports the guard bus holds at common while the event path watches the others, as a round of
 * patterns, one a reading. Port masks have bit 0 for P1 to bit 15 for P16 and bit 16 for M.
 *
 * <p>Continuity has one pattern: the returned port is held, and the tie or plug at the far end
 * holds the others by it; M is held as well, for metal left alone would follow the cable's step,
 * beyond the interlock's window, when a returned conductor that was open is back. In a touch vigil
 * each conductor has a number, in the order of the ports from 1, and M has 0; pattern b leaves the
 * conductors alone whose number has bit b, and holds the rest. Any two numbers differ in some bit:
 * so any two conductors that touch, or one and the metal, are apart in at least one pattern of the
 * round.
 */
final class GroupPatterns {
  private static final int ALL = (1 << ScanStep.PORTS) - 1;

  private final boolean touch;
  private final int[] guard;
  private final int[] watched;

  private GroupPatterns(boolean touch, int count) {
    this.touch = touch;
    guard = new int[count];
    watched = new int[count];
  }

  /**
   * @param ports with a conductor
   * @param returned the one of them that is held
   */
  static GroupPatterns continuity(int ports, int returned) {
    GroupPatterns patterns = new GroupPatterns(false, 1);
    patterns.guard[0] = 1 << returned | 1 << ScanStep.METAL;
    patterns.watched[0] = ports & ~(1 << returned);
    return patterns;
  }

  /**
   * @param ports with a conductor, two at least
   */
  static GroupPatterns touch(int ports) {
    int most = Integer.bitCount(ports);
    GroupPatterns patterns =
        new GroupPatterns(true, Integer.SIZE - Integer.numberOfLeadingZeros(most));
    int number = 0;
    for (int rest = ports; rest != 0; rest &= rest - 1) {
      number++;
      for (int code = 0; code < patterns.count(); code++) {
        patterns.watched[code] |= (number >>> code & 1) == 0 ? 0 : Integer.lowestOneBit(rest);
      }
    }
    for (int code = 0; code < patterns.count(); code++) {
      patterns.guard[code] = ALL & ~patterns.watched[code];
    }
    return patterns;
  }

  /** Whether a port watched is wrong when low, and not when high. */
  boolean touch() {
    return touch;
  }

  /** Patterns in a round, 1 to 5. */
  int count() {
    return guard.length;
  }

  /** Ports on the guard bus. */
  int guard(int code) {
    return guard[code];
  }

  /** Ports whose comparator and latch count. */
  int watched(int code) {
    return watched[code];
  }
}
