package bellwire.agent.chip;

import com.pi4j.io.spi.Spi;

/**
 * One chip select of an SPI bus. Pi4J reports a failed transfer by its return value, and only its
 * {@code transfer} tells failures from data; so nothing else is used, and each return is checked.
 */
final class SpiWire {
  /** The kernel's default limit for one transfer; beyond it Pi4J 2.8.0 fails without a word. */
  static final int MAX_BYTES = 4096;

  private final String chip;
  private final Spi spi;

  SpiWire(String chip, Spi spi) {
    this.chip = chip;
    this.spi = spi;
  }

  /** Shifts {@code length} bytes out and in, within one assertion of the chip select. */
  void exchange(byte[] out, byte[] in, int length) throws ChipTrouble {
    if (length < 1 || length > MAX_BYTES) {
      throw new IllegalArgumentException("length=" + length);
    }
    int moved;
    try {
      moved = spi.transfer(out, 0, in, 0, length);
    } catch (RuntimeException e) {
      throw new ChipTrouble(chip, "the SPI transfer to the " + chip + " failed: " + e.getMessage());
    }
    if (moved != length) {
      throw new ChipTrouble(
          chip, "the SPI transfer to the " + chip + " failed: moved=" + moved + " of=" + length);
    }
  }
}
