package bellwire.agent.chip;

import com.pi4j.io.spi.Spi;

/**
 * The chain of octal switches (ADG714 class) between the ports and the buses.
 *
 * <p>Sources: ADG714/ADG715 data sheet rev. E, "Serial interface": data are clocked in on the
 * falling edge of SCLK, the last eight bits before SYNC rises count, a one closes its switch, all
 * are open after power-on. The order of chips and bits is the board description's. The chain cannot
 * be read back; the self-check proves its range and check bits.
 */
public final class Crosspoint {
  private static final int BYTES = 8;

  private final SpiWire wire;
  private final byte[] out = new byte[BYTES];
  private final byte[] in = new byte[BYTES];

  public Crosspoint(Spi spi) {
    wire = new SpiWire("crosspoint", spi);
  }

  /**
   * Latches a word: all switches change together as the transfer ends, and the converter restarts.
   *
   * @param word bit 0 to 63 as in the board description; 1 closes a switch
   */
  public void latch(long word) throws ChipTrouble {
    for (int i = 0; i < BYTES; i++) {
      out[i] = (byte) (word >>> (8 * (BYTES - 1 - i)));
    }
    wire.exchange(out, in, BYTES);
  }
}
