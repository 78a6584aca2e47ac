package bellwire.simbench;

import bellwire.link.Tap;

/**
 * What the board's chips have to do with: switches, taps, relays and the hardware interlock, all of
 * it copper and comparators. The register-level chips stand on one side of this interface, the
 * circuit solver on the other. Times are nanoseconds of the {@link VirtualClock} and never run
 * backwards.
 */
public interface AnalogSide {

  /** The crosspoint chain's outputs after a latch edge, bits as in the board description. */
  void latchChain(long word, long nanos);

  /**
   * The control expander's outputs: relays fed (if the interlock and the heartbeat allow), test
   * load on.
   */
  void control(boolean connect, boolean testLoad, long nanos);

  /**
   * The event path's wetting asked for or not. On while the interlock's latch lets it; for the
   * window it counts as excitation.
   */
  void wetting(boolean on, long nanos);

  /** An edge of the heartbeat line. */
  void heartbeat(long nanos);

  /** A rising edge of the re-arm line. */
  void rearm(long nanos);

  /** The interlock's latch: set at power-on and by any port outside the window. */
  boolean tripped(long nanos);

  /** Whether a port is outside the window at this moment. */
  boolean outside(long nanos);

  /** Ports outside the window since the last successful re-arm, bit 0 = P1, bit 16 = M. */
  int tripFlags(long nanos);

  /** Whether the connect relays carry current now. */
  boolean connected(long nanos);

  /**
   * The voltage between two taps as a converter's digital filter sees it: the weighted mean over
   * the filter's window. Called when the window has passed ({@code startNanos +
   * filter.lengthNanos() <= now}).
   *
   * @return volts, without the converter's own errors
   */
  Seen convert(Tap plus, Tap minus, FilterKernel filter, long startNanos);

  /**
   * A conversion's view of the copper.
   *
   * @param volts filtered difference between the taps
   * @param peakVolts largest magnitude the difference reached in the window, for overload detection
   * @param stageOverloaded the transimpedance stage left its swing in the window
   */
  record Seen(double volts, double peakVolts, boolean stageOverloaded) {}
}
