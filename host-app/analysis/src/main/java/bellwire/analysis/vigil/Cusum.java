package bellwire.analysis.vigil;

/**
 * Two-sided tabular CUSUM with a headstart (Page 1954; Lucas and Crosier 1982). Theory (98). What
 * it costs in false alarms says {@link CusumDesign}.
 */
public final class Cusum {

  /** Which way it went. */
  public enum Alarm {
    NONE,
    UP,
    DOWN
  }

  private final double target;
  private final double deviation;
  private final double k;
  private final double h;
  private final double headstart;
  private double high;
  private double low;
  private long samples;
  private long highZeroAt;
  private long lowZeroAt;

  /**
   * @param target mean without a change, in the unit of the samples
   * @param deviation their standard deviation
   * @param k half of the change that is to be found soonest, in deviations
   * @param h alarm above it, in deviations
   * @param headstart both sums begin with it, in deviations; 0 for none
   */
  public Cusum(double target, double deviation, double k, double h, double headstart) {
    if (!Double.isFinite(target)
        || !(deviation > 0)
        || !(k >= 0)
        || !(h > 0)
        || !(headstart >= 0 && headstart <= h)) {
      throw new IllegalArgumentException(
          "target="
              + target
              + " deviation="
              + deviation
              + " k="
              + k
              + " h="
              + h
              + " headstart="
              + headstart);
    }
    this.target = target;
    this.deviation = deviation;
    this.k = k;
    this.h = h;
    this.headstart = headstart;
    restart();
  }

  /** Takes the next sample; after an alarm it goes on until {@link #restart}. */
  public Alarm add(double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value=" + value);
    }
    samples++;
    double z = (value - target) / deviation;
    high = Math.max(0, high + z - k);
    low = Math.max(0, low - z - k);
    highZeroAt = high == 0 ? samples : highZeroAt;
    lowZeroAt = low == 0 ? samples : lowZeroAt;
    if (high > h) {
      return Alarm.UP;
    }
    return low > h ? Alarm.DOWN : Alarm.NONE;
  }

  /** Both sums begin anew, with the headstart. */
  public void restart() {
    high = headstart;
    low = headstart;
    samples = 0;
    highZeroAt = 0;
    lowZeroAt = 0;
  }

  /** The upper sum, in deviations. */
  public double high() {
    return high;
  }

  /** The lower sum, in deviations. */
  public double low() {
    return low;
  }

  /** Samples since the sum that alarms was last 0: Page's estimate of when the change began. */
  public long samplesSince(Alarm side) {
    return switch (side) {
      case UP -> samples - highZeroAt;
      case DOWN -> samples - lowZeroAt;
      case NONE -> 0;
    };
  }
}
