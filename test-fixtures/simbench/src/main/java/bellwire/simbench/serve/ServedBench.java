package bellwire.simbench.serve;

import bellwire.link.ByteChannel;
import bellwire.simbench.SimulatedDevice;
import java.util.Locale;

/**
 * Keeps a simulated device's time in step with a clock and moves its bytes to and from a line. The
 * bench's time begins with the host's first byte, so that plugs come on as long after the survey's
 * start as the bench file says.
 */
final class ServedBench {
  /** Real time made up for in one step, so that bytes pass in between. */
  private static final long MAX_STEP_MICROS = 20_000;

  /** Real time behind which the bench is let fall for good. */
  private static final long MAX_LAG_MICROS = 1_000_000;

  private final SimulatedDevice device;
  private final ByteChannel line;
  private final double speed;
  private final byte[] buffer = new byte[4096];
  private boolean begun;
  private long originMicros;
  private long fallenBehindMicros;

  /**
   * @param speed the bench's seconds in one second of the clock
   */
  ServedBench(SimulatedDevice device, ByteChannel line, double speed) {
    this.device = device;
    this.line = line;
    this.speed = speed;
  }

  /**
   * @param nowMicros monotonic
   */
  void step(long nowMicros) {
    boolean heard = fromHost();
    if (!begun) {
      if (!heard) {
        return;
      }
      begun = true;
      originMicros = nowMicros;
    }
    long lag = nowMicros - originMicros - (long) (device.micros() / speed);
    if (lag > MAX_LAG_MICROS) {
      originMicros += lag - MAX_LAG_MICROS;
      fallenBehindMicros += lag - MAX_LAG_MICROS;
      lag = MAX_LAG_MICROS;
    }
    device.run((long) (Math.max(0, Math.min(lag, MAX_STEP_MICROS)) * speed));
    toHost();
  }

  /** One line for people and scripts. */
  String status() {
    return String.format(
        Locale.ROOT,
        "time=%.3f s relays=%s behind=%.3f s",
        device.micros() * 1e-6,
        device.relaysClosed() ? "closed" : "open",
        fallenBehindMicros * 1e-6);
  }

  private boolean fromHost() {
    int total = 0;
    int count;
    while (total < MAX_STEP_MICROS && (count = line.read(buffer)) > 0) {
      device.write(buffer, 0, count);
      total += count;
    }
    return total > 0;
  }

  private void toHost() {
    int count;
    while ((count = device.read(buffer)) > 0) {
      line.write(buffer, 0, count);
    }
  }
}
