package bellwire.simbench.cable;

import bellwire.simbench.file.Wander;
import java.util.SplittableRandom;

/** A wandering joint's resistance, step by step. */
final class Wandering {
  private static final double HOUR_NANOS = 3.6e12;

  private final Wander wander;
  private final SplittableRandom random;
  private double ohms;
  private long nextNanos;

  /**
   * @param number among the bench's wandering joints
   */
  Wandering(Wander wander, long seed, int number) {
    this.wander = wander;
    random = new SplittableRandom(seed * 0x9E3779B97F4A7C15L - 1 - number);
    ohms = wander.ohms();
    nextNanos = wander.fromNanos() + wander.everyNanos();
  }

  double ohms() {
    return ohms;
  }

  /** When it takes its next step, {@link Long#MAX_VALUE} for never. */
  long nextNanos() {
    return nextNanos <= wander.untilNanos() ? nextNanos : Long.MAX_VALUE;
  }

  /** A walk turns back at 0 ohm. */
  void step() {
    double ramp = wander.rampOhmsPerHour() * wander.everyNanos() / HOUR_NANOS;
    ohms = Math.abs(ohms + ramp + wander.walkOhms() * random.nextGaussian());
    nextNanos += wander.everyNanos();
  }
}
