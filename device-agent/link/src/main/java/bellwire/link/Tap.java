package bellwire.link;

/**
 * A place on the board that the converter can look at.
 *
 * @param kind what is tapped
 * @param port 0 for P1 to 15 for P16, 16 for M; −1 where the kind has no port
 */
public record Tap(Kind kind, int port) {

  /**
   * SENSE is a port's terminal; MONITOR its interlock divider, which stays readable with the relays
   * open.
   */
  public enum Kind {
    SENSE,
    MONITOR,
    REFERENCE_HIGH,
    REFERENCE_LOW,
    TRANSIMPEDANCE,
    COMMON,
    DRIVE_BUS,
    RETURN_BUS;

    public boolean hasPort() {
      return this == SENSE || this == MONITOR;
    }
  }

  public static final Tap REFERENCE_HIGH = new Tap(Kind.REFERENCE_HIGH, -1);
  public static final Tap REFERENCE_LOW = new Tap(Kind.REFERENCE_LOW, -1);
  public static final Tap TRANSIMPEDANCE = new Tap(Kind.TRANSIMPEDANCE, -1);
  public static final Tap COMMON = new Tap(Kind.COMMON, -1);
  public static final Tap DRIVE_BUS = new Tap(Kind.DRIVE_BUS, -1);
  public static final Tap RETURN_BUS = new Tap(Kind.RETURN_BUS, -1);

  public Tap {
    if (kind.hasPort() ? port < 0 || port >= ScanStep.PORTS : port != -1) {
      throw new IllegalArgumentException("kind=" + kind + " port=" + port);
    }
  }

  public static Tap sense(int port) {
    return new Tap(Kind.SENSE, port);
  }

  public static Tap monitor(int port) {
    return new Tap(Kind.MONITOR, port);
  }
}
