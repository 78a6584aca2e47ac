package bellwire.app.vigil;

import bellwire.analysis.vigil.EventLimits;

/** Which events count. */
public enum Counting {
  /** Every opening or touch, of one reading or of a latch alone, for itself. */
  EACH(0, 0),
  /** From 0.3 ms on, as ITU-T O.62 begins to class interruptions. */
  O62(300, 0),
  /** Openings of a contact that bounces, within 10 ms of one another, are one. */
  JOINED(0, 10_000);

  /** Readings further apart leave a gap; one comes late now and then. */
  private static final long GAP_MICROS = 1500;

  private final EventLimits limits;

  Counting(long leastMicros, long rejoinMicros) {
    limits = new EventLimits(GAP_MICROS, leastMicros, rejoinMicros);
  }

  EventLimits limits() {
    return limits;
  }
}
