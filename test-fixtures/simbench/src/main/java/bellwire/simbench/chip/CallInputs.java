package bellwire.simbench.chip;

import bellwire.board.BoardDescription;
import bellwire.simbench.CallSide;
import bellwire.simbench.VirtualClock;
import java.util.random.RandomGenerator;

/**
 * The call-sense connector's comparators and optocouplers: each lead a threshold of its own with AC
 * and one with the wetting, and one delay for all.
 */
public final class CallInputs {
  private static final int LEADS = 16;

  private final CallSide side;
  private final VirtualClock clock;
  private final double[] acVolts = new double[LEADS];
  private final double[] dryVolts = new double[LEADS];
  private final long delayNanos;

  private long seenNanos = -1;
  private boolean seenWetting;
  private int seenLoads;
  private int seen;

  /**
   * @param random draws of thresholds and delay within the board's tolerances
   */
  public CallInputs(
      BoardDescription board, CallSide side, VirtualClock clock, RandomGenerator random) {
    this.side = side;
    this.clock = clock;
    for (int lead = 0; lead < LEADS; lead++) {
      acVolts[lead] = draw(board.value("call-threshold-volts"), random);
      dryVolts[lead] = draw(board.value("call-dry-threshold-volts"), random);
    }
    delayNanos = (long) (1000 * draw(board.value("call-delay-micros"), random));
  }

  /** With nothing clipped on, and every value in the middle of its tolerance. */
  static CallInputs none(BoardDescription board, VirtualClock clock) {
    return new CallInputs(board, CallSide.NONE, clock, () -> Long.MIN_VALUE);
  }

  private static double draw(BoardDescription.Value value, RandomGenerator random) {
    return value.nominal() + (2 * random.nextDouble() - 1) * value.tolerance();
  }

  /** A one for each lead above its threshold, at the clock's time less the delay. */
  public int word(boolean wetting, int loads) {
    long nanos = Math.max(0, clock.nanos() - delayNanos);
    if (nanos != seenNanos || wetting != seenWetting || loads != seenLoads) {
      seenNanos = nanos;
      seenWetting = wetting;
      seenLoads = loads;
      seen = 0;
      double[] threshold = wetting ? dryVolts : acVolts;
      for (int lead = 0; lead < LEADS; lead++) {
        double volts = side.volts(lead, wetting, (loads >>> lead & 1) != 0, nanos);
        seen |= Math.abs(volts) > threshold[lead] ? 1 << lead : 0;
      }
    }
    return seen;
  }
}
