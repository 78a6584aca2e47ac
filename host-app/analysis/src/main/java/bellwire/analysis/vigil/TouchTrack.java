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
    low = 1 << code;
    heldMicros = held ? micros : Long.MIN_VALUE;
    this.held = held;
  }

  void shows(long micros, int code, boolean heldNow, int codes) {
    // Was it there all the time between? Held then, and here again within a round: yes.
    if (held && micros - lastMicros <= codes * TouchDecoder.TICK_MICROS) {
      notLow |= passed;
    }
    passed = 0;
    low |= 1 << code;
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

  /** Codes in which it was seen low. */
  int low() {
    return low;
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
    return (low & notLow) != 0 || likely == 0 ? possible : likely;
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
