package bellwire.simbench.chip;

import bellwire.simbench.FilterKernel;

/**
 * The converter's low-latency digital filter by data-rate code: how long a conversion takes and
 * what it averages over. Times are counted in modulator periods of 1/256 kHz.
 *
 * <p>Conversion times: data sheet SBAS815A table 13 (ADS114S0x; the ADS124S0x has the same digital
 * part). The kernels are the model's: their lengths follow from that table, which is a filter's
 * length plus an overhead of 40 periods (65 where the filter has a second stage) throughout. Where
 * their notches lie is the data sheet's: at 20 per second and slower 50 and 60 Hz together, at 50
 * and 60 one of them (statement of rejection: from memory). Slower rates than 20 are the 20 per
 * second kernel averaged further: 104000 = 14400 + 7 x 12800 periods, and so on. The overhead comes
 * before the window, so that a window ends with its conversion.
 */
final class LowLatencyFilter {
  static final int CODES = 14;

  private static final int[] FIRST = {
    104065, 52865, 27265, 15425, 14465, 5160, 4329, 2600, 1320, 680, 360, 296, 168, 104
  };
  private static final int[] NEXT = {
    102400, 51200, 25600, 15360, 12800, 5120, 4264, 2560, 1280, 640, 320, 256, 128, 64
  };
  private static final long BOX_60_HERTZ = 16_666_667;
  private static final long BOX_50_HERTZ = 20_000_000;
  private static final long LENGTH_20 = nanos(14400);

  private static final FilterKernel[] KERNELS = new FilterKernel[CODES];

  static {
    for (int code = 0; code < CODES; code++) {
      KERNELS[code] = new FilterKernel(boxes(code));
    }
  }

  private LowLatencyFilter() {}

  private static long[] boxes(int code) {
    long rest = LENGTH_20 - BOX_60_HERTZ - BOX_50_HERTZ;
    return switch (code) {
      case 0, 1, 2 ->
          new long[] {
            BOX_60_HERTZ, BOX_50_HERTZ, rest, nanos(FIRST[code] - 65) - LENGTH_20,
          };
      case 4 -> new long[] {BOX_60_HERTZ, BOX_50_HERTZ, rest};
      default -> new long[] {nanos(NEXT[code])};
    };
  }

  static FilterKernel kernel(int code) {
    return KERNELS[code];
  }

  /** From the end of the programmable delay to the first result. */
  static long firstNanos(int code) {
    return nanos(FIRST[code]);
  }

  /** From one result to the next in continuous mode. */
  static long periodNanos(int code) {
    return nanos(NEXT[code]);
  }

  /** Nominal conversions per second. */
  static double perSecond(int code) {
    return 256_000.0 / NEXT[code];
  }

  static long nanos(int modulatorPeriods) {
    return modulatorPeriods * 15_625L / 4;
  }
}
