package bellwire.app.job;

import java.util.Random;

/** Invented vigils of sixteen conductors, for the store's figures. */
final class VigilFeed {
  static final long TICK_MICROS = 1000;
  static final int CONDUCTORS = 16;
  private static final int ALL_CLOSED = 0xFFFF;

  private VigilFeed() {}

  /**
   * Words at 1 kHz, tick by tick as they come from the link.
   *
   * @param openingsPerHour of each conductor, exponential in distance
   * @param openMillis of an opening, exponential, at least one tick
   * @return openings
   */
  static long words(
      VigilStore store,
      Stream stream,
      double hours,
      double openingsPerHour,
      double openMillis,
      Random random)
      throws JobFileException {
    long ticks = Math.round(hours * 3_600_000);
    double ticksBetween = 3_600_000 / openingsPerHour / CONDUCTORS;
    long next = openingsPerHour > 0 ? exponential(ticksBetween, random) : ticks;
    long[] openUntil = new long[CONDUCTORS];
    long openings = 0;
    for (long tick = 0; tick < ticks; tick++) {
      int word = ALL_CLOSED;
      int latches = 0;
      if (tick >= next) {
        int port = random.nextInt(CONDUCTORS);
        openUntil[port] = tick + exponential(openMillis, random);
        latches = 1 << port;
        next = tick + exponential(ticksBetween, random);
        openings++;
      }
      for (int i = 0; i < CONDUCTORS; i++) {
        if (tick < openUntil[i]) {
          word &= ~(1 << i);
        }
      }
      store.appendTicks(stream, tick * TICK_MICROS, 1, word, latches);
    }
    return openings;
  }

  private static long exponential(double mean, Random random) {
    return 1 + (long) (-mean * Math.log1p(-random.nextDouble()));
  }

  /**
   * A converter in rotation over all conductors: white noise about a level that wanders with the
   * cable's warmth, and steps by a contact now and then.
   *
   * @param perSecond samples of all conductors together
   * @param noiseCodes standard deviation
   * @return samples
   */
  static long codes(
      VigilStore store,
      Stream[] streams,
      double hours,
      int perSecond,
      double noiseCodes,
      Random random)
      throws JobFileException {
    long apartMicros = 1_000_000 / perSecond;
    long samples = Math.round(hours * 3600 * perSecond);
    double[] level = new double[CONDUCTORS];
    for (int i = 0; i < CONDUCTORS; i++) {
      level[i] = 400_000 + 20_000 * i;
    }
    double daily = 2 * Math.PI / (24.0 * 3600 * perSecond);
    for (long n = 0; n < samples; n++) {
      int i = (int) (n % CONDUCTORS);
      if (random.nextInt(20_000) == 0) {
        level[i] += 3000 * random.nextGaussian();
      }
      double warmth = 1 + 0.02 * Math.sin(n * daily);
      int code = (int) Math.round(level[i] * warmth + noiseCodes * random.nextGaussian());
      store.appendCode(streams[i], n * apartMicros, code);
    }
    return samples;
  }
}
