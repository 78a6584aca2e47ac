package bellwire.analysis.vigil;

/**
 * Interruptions by how long they last, the classes of ITU-T O.62. (It lets a measurement begin at
 * 0.6 ms instead of 0.3.)
 */
public enum InterruptionClass {
  /** Below what O.62 classes. */
  SHORTER(0),
  TO_3_MS(300),
  TO_30_MS(3_000),
  TO_300_MS(30_000),
  TO_1_MINUTE(300_000),
  LONGER(60_000_000);

  private final long fromMicros;

  InterruptionClass(long fromMicros) {
    this.fromMicros = fromMicros;
  }

  public long fromMicros() {
    return fromMicros;
  }

  /** The class of one that lasted so long. */
  public static InterruptionClass of(long micros) {
    InterruptionClass found = SHORTER;
    for (InterruptionClass each : values()) {
      found = micros >= each.fromMicros ? each : found;
    }
    return found;
  }
}
