package bellwire.simbench.cable;

import bellwire.simbench.file.Intermittent;
import java.util.SplittableRandom;

/** When an intermittent fault may begin: times from the bench's start on, in rising order. */
final class Starts {
  static final long NEVER = Long.MAX_VALUE;
  private static final double HOUR_NANOS = 3.6e12;

  /** A hundred days: no bench runs for so long. */
  private static final double END_NANOS = 1e16;

  /** How far off its point a vibration's swing is met, of a swing, either side. */
  private static final double SWING_JITTER = 0.05;

  private final Intermittent.When when;
  private final SplittableRandom random;
  private double now;
  private long number;
  private long left;

  Starts(Intermittent.When when, SplittableRandom random) {
    this.when = when;
    this.random = random;
    number = -1;
  }

  /** The next one in nanoseconds, or {@link #NEVER}. */
  long next() {
    if (when instanceof Intermittent.Poisson poisson) {
      now += exponential(HOUR_NANOS / poisson.perHour());
    } else if (when instanceof Intermittent.Bursts bursts) {
      burst(bursts);
    } else if (when instanceof Intermittent.Cycle cycle) {
      cycle(cycle);
    } else if (when instanceof Intermittent.Temperature temperature) {
      temperature(temperature);
    } else if (when instanceof Intermittent.Vibration vibration) {
      vibration(vibration);
    }
    return now < END_NANOS ? Math.round(now) : NEVER;
  }

  private void burst(Intermittent.Bursts bursts) {
    if (left > 0) {
      left--;
      now += exponential(bursts.gapNanos());
    } else {
      now += exponential(HOUR_NANOS / bursts.perHour());
      left = failures(1 / bursts.events());
    }
  }

  private void cycle(Intermittent.Cycle cycle) {
    if (cycle.chance() == 0) {
      now = END_NANOS;
      return;
    }
    number += 1 + failures(cycle.chance());
    double off = cycle.jitterNanos() * (2 * random.nextDouble() - 1);
    now = Math.max(0, cycle.phaseNanos() + (double) number * cycle.periodNanos() + off);
  }

  /**
   * A Poisson process of the highest rate, thinned by the ratio of the rate at hand to that. P. A.
   * W. Lewis and G. S. Shedler, Naval Research Logistics Quarterly 26 (1979) 403.
   */
  private void temperature(Intermittent.Temperature t) {
    double most = Math.abs(t.perKelvin()) * t.swingKelvin();
    double meanNanos = HOUR_NANOS / t.perHour() * Math.exp(-most);
    double exponent;
    do {
      now += exponential(meanNanos);
      double kelvin =
          t.swingKelvin() * Math.cos(2 * Math.PI * (now - t.warmestNanos()) / t.periodNanos());
      exponent = t.perKelvin() * kelvin - most;
    } while (now < END_NANOS && random.nextDouble() >= Math.exp(exponent));
  }

  private void vibration(Intermittent.Vibration v) {
    long swings = Math.max(1, (long) (v.runningNanos() * 1e-9 * v.hertz()));
    number += 1 + failures(v.chance());
    double swing = number % swings + 0.5 + SWING_JITTER * (2 * random.nextDouble() - 1);
    now = v.phaseNanos() + (double) (number / swings) * v.periodNanos() + swing * 1e9 / v.hertz();
  }

  private double exponential(double mean) {
    return -mean * Math.log1p(-random.nextDouble());
  }

  /** How many times something of this chance fails before it happens. */
  private long failures(double chance) {
    return chance >= 1 ? 0 : (long) (Math.log1p(-random.nextDouble()) / Math.log1p(-chance));
  }
}
