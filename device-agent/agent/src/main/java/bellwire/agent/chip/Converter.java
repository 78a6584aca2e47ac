package bellwire.agent.chip;

import bellwire.link.Rate;
import com.pi4j.io.spi.Spi;
import java.util.Arrays;

/**
 * The 24-bit delta-sigma converter (ADS124S08 class). Conversions are started by its START/SYNC
 * pin, which the board ties to the crosspoint's latch line; so no command here starts or stops one.
 *
 * <p>Sources: ADS124S0x data sheet SBAS660C: commands table 24, registers section 9.6, STATUS
 * before and CRC after each result when SYS says so, CRC-8 by x^8+x^2+x+1 over STATUS and data (its
 * initial value of zero: from memory). Register bits agree with the maker's published example code.
 *
 * <p>Commands have no check of their own: one that arrives damaged may be another, which alters
 * settings or starts a calibration. So all settings are read back each time that some are written,
 * and {@link #verify} does the same.
 */
public final class Converter {
  /** After a reset the chip must be left alone for 4096 periods of its 4.096 MHz clock. */
  public static final int RESET_MICROS = 1000;

  /** The internal reference's start, 5.9 ms with its usual capacitor (from memory), rounded up. */
  public static final int REFERENCE_MICROS = 10_000;

  private static final String CHIP = "converter";
  private static final int RESET = 0x06;
  private static final int RDATA = 0x12;
  private static final int RREG = 0x20;
  private static final int WREG = 0x40;

  private static final int ID = 0x00;
  private static final int STATUS = 0x01;
  private static final int INPMUX = 0x02;
  private static final int REF = 0x05;
  private static final int IDACMAG = 0x06;
  private static final int SYS = 0x09;

  private static final int ID_DEVICE_MASK = 0x07;
  private static final int STATUS_POWER_ON = 0x80;
  private static final int STATUS_NOT_READY = 0x40;
  private static final int STATUS_RAILS = 0x3C;
  private static final int PGA_ENABLED = 0x08;
  private static final int DATARATE_SINGLE_SHOT = 0x20;
  private static final int DATARATE_LOW_LATENCY = 0x10;

  /** Internal 2.5 V reference, always on, both reference buffers bypassed. */
  private static final int REF_INTERNAL = 0x3A;

  private static final int IDACMAG_RAIL_FLAGS = 0x80;

  /** Calibration over 8 samples (the reset value), CRC and STATUS with each result. */
  private static final int SYS_CHECKED = 0x13;

  /** From REF to the last register of the calibration, which is left as it was reset. */
  private static final byte[] FIXED = {
    REF_INTERNAL, (byte) IDACMAG_RAIL_FLAGS, (byte) 0xFF, 0, SYS_CHECKED, 0, 0, 0, 0, 0, 0x40
  };

  private static final int CHOSEN = REF - INPMUX;

  private static final int CODE_MAX = 0x7F_FFFF;
  private static final int CODE_MIN = -0x80_0000;
  private static final int ATTEMPTS = 3;
  private static final int RESULT_BYTES = 6;

  private final SpiWire wire;
  private final byte[] out = new byte[24];
  private final byte[] in = new byte[24];
  private final byte[] values = new byte[2];
  private final byte[] settings = new byte[CHOSEN + FIXED.length];

  public Converter(Spi spi) {
    wire = new SpiWire(CHIP, spi);
  }

  /** Puts every register at its reset value. Next call no sooner than {@link #RESET_MICROS}. */
  public void reset() throws ChipTrouble {
    out[0] = RESET;
    wire.exchange(out, in, 1);
  }

  /**
   * Checks that the right chip answers and gives it the settings that never change. First
   * conversion no sooner than {@link #REFERENCE_MICROS}.
   */
  public void configure() throws ChipTrouble {
    int id = read(ID) & ID_DEVICE_MASK;
    int status = read(STATUS);
    if (id != 0) {
      throw new ChipTrouble(CHIP, "another chip answers in the converter's place: id=" + id);
    }
    if ((status & STATUS_POWER_ON) == 0) {
      throw new ChipTrouble(CHIP, "the converter did not reset: status=" + hex(status));
    }
    if ((status & STATUS_NOT_READY) != 0) {
      throw new ChipTrouble(CHIP, "the converter is not ready: status=" + hex(status));
    }
    // The flag of its start is left set: no good result is then all zeros, as a dead line is.
    values[0] = (byte) REF_INTERNAL;
    values[1] = (byte) IDACMAG_RAIL_FLAGS;
    writeChecked(REF, values, 2, 2);
    values[0] = (byte) SYS_CHECKED;
    writeChecked(SYS, values, 1, 1);
  }

  /**
   * Settings for the conversions that the next latch edge starts.
   *
   * @param positive converter input, 0 to 11
   * @param negative converter input, 0 to 11
   * @param gain a power of two from 1 to 128
   * @param delayCode of {@link ConversionTimes#delayCode}
   * @param continuous conversions back to back until the next call, otherwise one
   */
  public void setUp(
      int positive, int negative, int gain, Rate rate, int delayCode, boolean continuous)
      throws ChipTrouble {
    int gainCode = Integer.numberOfTrailingZeros(gain);
    settings[0] = (byte) (positive << 4 | negative);
    settings[1] = (byte) (delayCode << 5 | PGA_ENABLED | gainCode);
    settings[2] =
        (byte) ((continuous ? 0 : DATARATE_SINGLE_SHOT) | DATARATE_LOW_LATENCY | rate.ordinal());
    System.arraycopy(FIXED, 0, settings, CHOSEN, FIXED.length);
    writeChecked(INPMUX, settings, CHOSEN, settings.length);
  }

  /**
   * Proves that the settings are those of the last {@link #setUp}, so that what was read since is
   * what was asked for.
   */
  public void verify() throws ChipTrouble {
    writeChecked(INPMUX, settings, 0, settings.length);
  }

  /**
   * The last result. A result that arrives damaged is asked for again: the chip holds it until the
   * next one.
   *
   * @throws ChipTrouble when it stays damaged, or the chip was reset behind our back
   */
  public Conversion read() throws ChipTrouble {
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      Arrays.fill(out, 0, RESULT_BYTES, (byte) 0);
      out[0] = RDATA;
      wire.exchange(out, in, RESULT_BYTES);
      if (crc8(in, 1, 4) != (in[5] & 0xFF)) {
        continue;
      }
      if ((in[1] & STATUS_POWER_ON) != 0) {
        return decode();
      }
    }
    if (read(SYS) != SYS_CHECKED) {
      throw new ChipTrouble(CHIP, "the converter lost its supply and reset itself");
    }
    throw new ChipTrouble(CHIP, "the converter's results arrive damaged, attempts=" + ATTEMPTS);
  }

  private Conversion decode() throws ChipTrouble {
    int status = in[1] & 0xFF;
    if ((status & STATUS_NOT_READY) != 0) {
      throw new ChipTrouble(CHIP, "the converter is not ready: status=" + hex(status));
    }
    int code = in[2] << 16 | (in[3] & 0xFF) << 8 | in[4] & 0xFF;
    boolean overloaded = (status & STATUS_RAILS) != 0 || code == CODE_MAX || code == CODE_MIN;
    return new Conversion(code, overloaded);
  }

  private int read(int register) throws ChipTrouble {
    Arrays.fill(out, 0, 3, (byte) 0);
    out[0] = (byte) (RREG | register);
    wire.exchange(out, in, 3);
    return in[2] & 0xFF;
  }

  /** Writes to consecutive registers, and reads back as many or more in the same transfer. */
  private void writeChecked(int register, byte[] wanted, int write, int compare)
      throws ChipTrouble {
    int header = write == 0 ? 0 : 2 + write;
    int length = header + 2 + compare;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      Arrays.fill(out, 0, length, (byte) 0);
      if (write > 0) {
        out[0] = (byte) (WREG | register);
        out[1] = (byte) (write - 1);
        System.arraycopy(wanted, 0, out, 2, write);
      }
      out[header] = (byte) (RREG | register);
      out[header + 1] = (byte) (compare - 1);
      wire.exchange(out, in, length);
      if (Arrays.equals(in, header + 2, length, wanted, 0, compare)) {
        return;
      }
    }
    throw new ChipTrouble(
        CHIP,
        "the converter does not hold what is written to it, or has lost its settings: register="
            + register);
  }

  /** CRC-8 by x^8+x^2+x+1, from zero, not reflected. */
  static int crc8(byte[] bytes, int from, int count) {
    int crc = 0;
    for (int i = from; i < from + count; i++) {
      crc ^= bytes[i] & 0xFF;
      for (int bit = 0; bit < 8; bit++) {
        crc = (crc & 0x80) != 0 ? (crc << 1 ^ 0x07) & 0xFF : crc << 1;
      }
    }
    return crc;
  }

  private static String hex(int value) {
    return "0x" + Integer.toHexString(value);
  }
}
