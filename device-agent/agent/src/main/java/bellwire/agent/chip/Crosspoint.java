package bellwire.agent.chip;

import com.pi4j.io.spi.Spi;
import java.util.Locale;

/**
 * The chain of octal switches (ADG714 class) between the ports and the buses.
 *
 * <p>Sources: ADG714/ADG715 data sheet rev. E, "Serial interface": data are clocked in on the
 * falling edge of SCLK, the last eight bits before SYNC rises count, a one closes its switch, all
 * are open after power-on; "Daisy-chaining": what was in the chain leaves at its end as new data
 * come in. The order of chips and bits is the board description's. The chain's end is wired to the
 * Pi, so that each word tells whether the one before it had arrived.
 */
public final class Crosspoint {
  private static final int BYTES = 8;

  private final SpiWire wire;
  private final byte[] out = new byte[BYTES];
  private final byte[] in = new byte[BYTES];
  private long told;
  private boolean known;

  public Crosspoint(Spi spi) {
    wire = new SpiWire("crosspoint", spi);
  }

  /**
   * Latches a word: all switches change together as the transfer ends, and the converter restarts.
   *
   * @param word bit 0 to 63 as in the board description; 1 closes a switch
   * @throws ChipTrouble also where the word before was not what the switches had
   */
  public void latch(long word) throws ChipTrouble {
    for (int i = 0; i < BYTES; i++) {
      out[i] = (byte) (word >>> (8 * (BYTES - 1 - i)));
    }
    boolean sure = known;
    known = false;
    wire.exchange(out, in, BYTES);
    long before = told;
    told = word;
    known = true;
    if (sure && heard() != before) {
      throw new ChipTrouble(
          "crosspoint",
          String.format(
              Locale.ROOT,
              "the crosspoint's switches were not as told: told=%016x found=%016x",
              before,
              heard()));
    }
  }

  /** What is in the chain now is not known, as after the board's supply was cut. */
  public void forget() {
    known = false;
  }

  private long heard() {
    long word = 0;
    for (byte b : in) {
      word = word << 8 | b & 0xFF;
    }
    return word;
  }
}
