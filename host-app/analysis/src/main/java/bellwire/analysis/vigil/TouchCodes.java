package bellwire.analysis.vigil;

/**
 * Which conductors a touch vigil leaves to their wetting resistor in which code. M has the number 0
 * and is always held; the cable's conductors have 1 and up, by their ports. In code b those are
 * driven whose number has bit b. Theory (110).
 *
 * @param ports with a conductor, bit 0 for P1, at most 16
 */
public record TouchCodes(int ports) {
  private static final int MOST_PORTS = 16;

  public TouchCodes {
    if (ports <= 0 || ports >>> MOST_PORTS != 0) {
      throw new IllegalArgumentException("ports=" + ports);
    }
  }

  /** Codes in a round. */
  public int codes() {
    return Integer.SIZE - Integer.numberOfLeadingZeros(conductors());
  }

  public int conductors() {
    return Integer.bitCount(ports);
  }

  /** A port's number; 0 for {@link Touch#METAL}. */
  public int number(int port) {
    return port == Touch.METAL ? 0 : Integer.bitCount(ports & (2 << port) - 1);
  }

  /** Ports driven in a code. */
  public int driven(int code) {
    int driven = 0;
    for (int left = ports; left != 0; left &= left - 1) {
      int port = Integer.numberOfTrailingZeros(left);
      driven |= (number(port) >> code & 1) << port;
    }
    return driven;
  }

  /** All that can take part: the ports and M. */
  int everything() {
    return ports | 1 << Touch.METAL;
  }
}
