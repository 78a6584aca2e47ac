package bellwire.simbench.pi4j;

import bellwire.board.BoardDescription;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.SpiTarget;
import com.pi4j.io.spi.Spi;
import com.pi4j.io.spi.SpiBase;
import com.pi4j.io.spi.SpiConfig;
import com.pi4j.io.spi.SpiProvider;
import com.pi4j.io.spi.SpiProviderBase;
import java.util.Map;

/** An SPI device that leads to a simulated chip, with the limits of the Linux driver. */
final class SimulatedSpi extends SpiBase {
  static final String ID = "simbench-spi";
  private static final int MAX_BYTES = 4096;

  private final SpiTarget target;

  SimulatedSpi(SpiProvider provider, SpiConfig config, SpiTarget target) {
    super(provider, config);
    this.target = target;
  }

  @Override
  public int transfer(byte[] write, int writeOffset, byte[] read, int readOffset, int length) {
    if (length < 1) {
      throw new IllegalArgumentException("length=" + length);
    }
    if (length > MAX_BYTES) {
      return -1;
    }
    target.frame(write, writeOffset, read, readOffset, length);
    return length;
  }

  @Override
  public int read() {
    throw new UnsupportedOperationException("the agent uses transfer only");
  }

  @Override
  public int read(byte[] buffer, int offset, int length) {
    throw new UnsupportedOperationException("the agent uses transfer only");
  }

  @Override
  public int write(byte b) {
    throw new UnsupportedOperationException("the agent uses transfer only");
  }

  @Override
  public int write(byte[] data, int offset, int length) {
    throw new UnsupportedOperationException("the agent uses transfer only");
  }

  /** Knows which chip is on which chip select, and which clock modes it understands. */
  static final class Provider extends SpiProviderBase implements SpiProvider {
    /**
     * Modes by the edge that samples: the converter's falling (mode 1), the expanders' rising (0 or
     * 3), the switches' falling (1 or 2); from the data sheets' timing diagrams.
     */
    private static final Map<String, Integer> MODE_SETS =
        Map.of("converter", 0b0010, "expanders", 0b1001, "crosspoint", 0b0110);

    private final BoardChips chips;
    private final BoardDescription board;

    Provider(BoardChips chips, BoardDescription board) {
      super(ID, "simulated SPI");
      this.chips = chips;
      this.board = board;
    }

    @Override
    public Spi create(SpiConfig config) {
      for (Map.Entry<String, Integer> entry : MODE_SETS.entrySet()) {
        BoardDescription.SpiDevice device = board.spi(entry.getKey());
        if (device.bus() == config.bus().getBus()
            && device.chipSelect() == config.chipSelect().getChipSelect()) {
          if ((entry.getValue() & 1 << config.mode().getMode()) == 0) {
            throw new IllegalArgumentException(entry.getKey() + " in mode=" + config.mode());
          }
          Spi spi = new SimulatedSpi(this, config, chips.device(entry.getKey()));
          context().registry().add(spi);
          return spi;
        }
      }
      throw new IllegalArgumentException(
          "nothing on bus=" + config.bus() + " chipSelect=" + config.chipSelect());
    }
  }
}
