package bellwire.analysis.vigil;

/**
 * How likely a touch of two conductors is seen. Port i is driven in code b where bit b of i is set,
 * one code after the other, round and round; a touch shows where one of the two is driven and the
 * other is not, once it lasts there for as long as the latch needs. Theory (95) and (96).
 */
public final class TouchChance {
  private static final int MOST_PORTS = 32;

  private final int ports;
  private final int codes;
  private final double codeMicros;
  private final double blindMicros;
  private final double latchMicros;

  /**
   * @param ports 2 to 32
   * @param codeMicros from one code to the next
   * @param blindMicros at the beginning of each, while groups switch and latches are cleared
   * @param latchMicros what a latch needs
   */
  public TouchChance(int ports, double codeMicros, double blindMicros, double latchMicros) {
    if (ports < 2
        || ports > MOST_PORTS
        || !(blindMicros >= 0)
        || !(latchMicros >= 0)
        || !(blindMicros + latchMicros < codeMicros)) {
      throw new IllegalArgumentException(
          "ports="
              + ports
              + " codeMicros="
              + codeMicros
              + " blindMicros="
              + blindMicros
              + " latchMicros="
              + latchMicros);
    }
    this.ports = ports;
    this.codes = Integer.SIZE - Integer.numberOfLeadingZeros(ports - 1);
    this.codeMicros = codeMicros;
    this.blindMicros = blindMicros;
    this.latchMicros = latchMicros;
  }

  /** Codes in a round. */
  public int codes() {
    return codes;
  }

  /**
   * Chance that a touch is seen that begins at any moment of the round alike.
   *
   * @param a a port from 0
   * @param b another
   */
  public double ofPair(int a, int b, double touchMicros) {
    if (a == b || Math.min(a, b) < 0 || Math.max(a, b) >= ports || !(touchMicros >= 0)) {
      throw new IllegalArgumentException("a=" + a + " b=" + b + " touchMicros=" + touchMicros);
    }
    // Seen in the code that looks from 0 to w if it begins after latch - touch and up to w - latch.
    double begin = latchMicros - touchMicros;
    double window = codeMicros - blindMicros;
    double end = window - latchMicros;
    if (end <= begin || touchMicros < latchMicros) {
      return 0;
    }
    double round = codes * codeMicros;
    double seen = 0;
    int differs = a ^ b;
    for (int code = 0; code < codes; code++) {
      if ((differs >> code & 1) != 0) {
        int back = 1;
        while ((differs >> (code - back + codes) % codes & 1) == 0) {
          back++;
        }
        // What the differing code before it sees already is not counted again.
        seen += Math.min(end - begin, back * codeMicros);
      }
    }
    return Math.min(1, seen / round);
  }

  /** The mean over all pairs: for a touch of which nothing is known but its length. */
  public double ofAnyPair(double touchMicros) {
    double sum = 0;
    for (int a = 1; a < ports; a++) {
      for (int b = 0; b < a; b++) {
        sum += ofPair(a, b, touchMicros);
      }
    }
    return sum / (ports * (ports - 1) / 2.0);
  }
}
