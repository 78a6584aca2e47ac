package bellwire.agent.chip;

import bellwire.link.Rate;

/**
 * When a conversion ends, from the data sheet of the ADS124S0x and ADS114S0x, counted in modulator
 * periods of 1/256 kHz (the internal 4.096 MHz oscillator, or an external clock of that rate).
 *
 * <p>Source: ADS114S0x data sheet SBAS815A, table 13, low-latency filter, both columns; the
 * ADS124S0x has the same digital part (TI application report SBAA535A quotes 296 periods at 1000
 * SPS from its data sheet).
 */
public final class ConversionTimes {
  private static final int[] FIRST_PERIODS = {
    104065, 52865, 27265, 15425, 14465, 5160, 4329, 2600, 1320, 680, 360, 296, 168, 104
  };
  private static final int[] NEXT_PERIODS = {
    102400, 51200, 25600, 15360, 12800, 5120, 4264, 2560, 1280, 640, 320, 256, 128, 64
  };

  /** Programmable delay by its code in the PGA register (data sheet SBAS660C, register 03h). */
  private static final int[] DELAY_PERIODS = {14, 25, 64, 256, 1024, 2048, 4096, 1};

  private ConversionTimes() {}

  /** From the end of the programmable delay to the first result, without that delay. */
  public static long firstNanos(Rate rate) {
    return nanos(FIRST_PERIODS[rate.ordinal()]);
  }

  /** From one result to the next in continuous mode. */
  public static long periodNanos(Rate rate) {
    return nanos(NEXT_PERIODS[rate.ordinal()]);
  }

  /** The programmable delay that a code stands for. */
  public static long delayNanos(int code) {
    return nanos(DELAY_PERIODS[code]);
  }

  /** Code of the shortest programmable delay that is no shorter than asked for. */
  public static int delayCode(int settleMicros) {
    int best = -1;
    for (int code = 0; code < DELAY_PERIODS.length; code++) {
      boolean enough = delayNanos(code) >= settleMicros * 1000L;
      if (enough && (best < 0 || DELAY_PERIODS[code] < DELAY_PERIODS[best])) {
        best = code;
      }
    }
    if (best < 0) {
      throw new IllegalArgumentException("settleMicros=" + settleMicros);
    }
    return best;
  }

  private static long nanos(int modulatorPeriods) {
    return modulatorPeriods * 15_625L / 4;
  }
}
