package bellwire.analysis.vigil;

/** What the readings tell of one conductor that is pulled low while driven. Theory (111). */
final class TouchTrack {
  private final int port;
  private final int number;
  final long sinceMicros;
  final long firstMicros;
  private final int firstCode;
  private long lastMicros;
  private int lastCode;
  private long heldMicros;
  private boolean held;
  private int low;
  private int notLow;

  /** Codes in which it was seen low while no touch was on that began at another time. */
  private int lowAlone;

  /** Ports that showed meanwhile. */
  private int meanwhile;

  /** Codes since the last showing, sure only once it shows again. */
  private int passed;

  /**
   * @param sinceMicros readings are unbroken from here on
   * @param held it touched at the reading itself, not only before it
   */
  TouchTrack(int port, int number, long sinceMicros, long micros, int code, boolean held) {
    this.port = port;
    this.number = number;
    this.sinceMicros = sinceMicros;
    firstMicros = micros;
    firstCode = code;
    lastMicros = micros;
    lastCode = code;
    heldMicros = held ? micros : Long.MIN_VALUE;
    this.held = held;
  }

  /**
   * It was low in this code.
   *
   * @param beside ports that show, in whatever touch
   * @param others those of them whose touch began at another time
   */
  void low(int code, int beside, int others) {
    low |= 1 << code;
    lowAlone |= others == 0 ? 1 << code : 0;
    meanwhile |= beside & ~(1 << port);
  }

  /** It is low again. */
  void shows(long micros, int code, boolean heldNow, int codes) {
    // Was it there all the time between? Held then, and here again within a round: yes.
    if (held && micros - lastMicros <= codes * TouchDecoder.TICK_MICROS) {
      notLow |= passed;
    }
    passed = 0;
    lastMicros = micros;
    lastCode = code;
    held = heldNow;
    heldMicros = heldNow ? micros : heldMicros;
  }

  void passes(int code) {
    passed |= 1 << code;
  }

  int port() {
    return port;
  }

  int number() {
    return number;
  }

  long lastMicros() {
    return lastMicros;
  }

  /** The last reading that it touched at; the least there is if none did. */
  long heldMicros() {
    return heldMicros;
  }

  boolean held() {
    return held;
  }

  /** Codes in which it was seen low; if there are any, those while no other touch was on. */
  int low() {
    return lowAlone == 0 ? low : lowAlone;
  }

  /** Who may be the other one, if one it is: bits as in {@link Touch#possibleOthers}. */
  int others(TouchCodes codes) {
    int possible = 0;
    int likely = 0;
    for (int left = codes.everything(); left != 0; left &= left - 1) {
      int other = Integer.numberOfTrailingZeros(left);
      int differs = codes.number(other) ^ number;
      if ((codes.number(other) & low) == 0) {
        possible |= 1 << other;
        likely |= (differs & notLow) == 0 ? 1 << other : 0;
      }
    }
    // A contact that chatters shows in a code now and not then: what it didn't show says nothing.
    boolean chatters = (low & notLow) != 0;
    return (chatters || likely == 0 ? possible : likely) | meanwhile(codes, chatters);
  }

  /**
   * Those that showed meanwhile, be it in other codes: they may have been in two touches. While
   * both lasted, whatever hung together was held by any of it.
   */
  private int meanwhile(TouchCodes codes, boolean chatters) {
    int common = -1;
    for (int left = meanwhile; left != 0; left &= left - 1) {
      common &= codes.number(Integer.numberOfTrailingZeros(left));
    }
    int found = 0;
    for (int left = codes.everything() & ~(1 << port);
        left != 0 && meanwhile != 0;
        left &= left - 1) {
      int bit = left & -left;
      int other = codes.number(Integer.numberOfTrailingZeros(left));
      boolean holds = (meanwhile & bit) != 0 && holds(other, chatters);
      found |= holds || low != lowAlone && holds(other & common, chatters) ? bit : 0;
    }
    return found;
  }

  /** Whether it would have been low where it was, and not where it wasn't. */
  private boolean holds(int other, boolean chatters) {
    return (other & low) == 0 && (chatters || (~other & number & notLow) == 0);
  }

  /** Ticks before the first showing since when it can't have been there. */
  int ticksBefore(int other, int codes) {
    int differs = other ^ number;
    int back = 1;
    while (back < codes && (differs >> Math.floorMod(firstCode - back, codes) & 1) == 0) {
      back++;
    }
    return back;
  }

  /** Ticks after the last showing until when it can't be there any more. */
  int ticksAfter(int other, int codes) {
    if (!held) {
      return 0;
    }
    int differs = other ^ number;
    int on = 1;
    while (on < codes && (differs >> (lastCode + on) % codes & 1) == 0) {
      on++;
    }
    return on;
  }
}
