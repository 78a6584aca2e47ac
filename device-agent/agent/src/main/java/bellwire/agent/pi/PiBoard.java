package bellwire.agent.pi;

import bellwire.agent.board.Lines;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.chip.Converter;
import bellwire.agent.chip.Crosspoint;
import bellwire.agent.chip.Expanders;
import bellwire.agent.chip.InputLine;
import bellwire.agent.chip.OutputLine;
import bellwire.board.BoardDescription;
import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalInputProvider;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import com.pi4j.io.spi.Spi;
import com.pi4j.io.spi.SpiBus;
import com.pi4j.io.spi.SpiChipSelect;
import com.pi4j.io.spi.SpiMode;
import com.pi4j.io.spi.SpiProvider;
import java.util.ArrayList;
import java.util.List;

/**
 * A sensing board on a Pi4J context: the same wiring for a Pi's own providers and for the simulated
 * bench's. Closing it closes what Pi4J's shutdown leaves open, the SPI descriptors, and then the
 * context.
 */
public final class PiBoard implements AutoCloseable {

  /** Pi4J provider ids. */
  public record Providers(String spi, String digitalInput, String digitalOutput) {
    public static final Providers RASPBERRY_PI =
        new Providers("linuxfs-spi", "gpiod-digital-input", "gpiod-digital-output");
  }

  private final Context context;
  private final BoardDescription board;
  private final List<Spi> devices = new ArrayList<>();

  private PiBoard(Context context, BoardDescription board) {
    this.context = context;
    this.board = board;
  }

  /** Takes charge of the context. */
  public static PiBoard open(Context context, BoardDescription board) {
    return new PiBoard(context, board);
  }

  /**
   * Claims the board's buses and lines from these providers.
   *
   * @throws PiTrouble in one sentence, naming the device or line and the usual remedy
   */
  public SensingBoard sensingBoard(Providers providers) throws PiTrouble {
    Converter converter = new Converter(spi(providers, "converter"));
    Expanders expanders = new Expanders(spi(providers, "expanders"));
    Crosspoint crosspoint = new Crosspoint(spi(providers, "crosspoint"));
    release(expanders);
    Lines lines =
        new Lines(
            input(providers, "data-ready"),
            input(providers, "interlock-tripped"),
            input(providers, "interlock-outside"),
            output(providers, "heartbeat"),
            output(providers, "rearm"),
            output(providers, "event-capture"));
    return new SensingBoard(board, converter, expanders, crosspoint, lines);
  }

  /**
   * Claiming the heartbeat line sets it low, which is an edge where an earlier run of the agent
   * died with it high; so the relays must not be waiting for one. What fails here fails again, and
   * is reported, at the board's reset. For the same reason no line is set at shutdown.
   */
  private void release(Expanders expanders) {
    try {
      expanders.enableAddresses();
      expanders.makeOutputs(board.expander("control"));
    } catch (ChipTrouble e) {
      // The board's reset will tell.
    }
  }

  private Spi spi(Providers providers, String name) throws PiTrouble {
    BoardDescription.SpiDevice device = board.spi(name);
    try {
      SpiProvider provider = context.provider(providers.spi());
      Spi spi =
          provider.create(
              Spi.newConfigBuilder(context)
                  .id(name)
                  .bus(SpiBus.getByNumber(device.bus()))
                  .chipSelect(SpiChipSelect.getByNumber(device.chipSelect()))
                  .mode(SpiMode.getByNumber(device.mode()))
                  .baud(device.hertz())
                  .build());
      devices.add(spi);
      return spi;
    } catch (RuntimeException e) {
      throw new PiTrouble(
          name
              + ": /dev/spidev"
              + device.bus()
              + "."
              + device.chipSelect()
              + " cannot be opened; enable SPI"
              + device.bus()
              + " in config.txt and join the group 'spi'",
          e);
    }
  }

  private InputLine input(Providers providers, String name) throws PiTrouble {
    int line = board.line(name);
    try {
      DigitalInputProvider provider = context.provider(providers.digitalInput());
      DigitalInput input =
          provider.create(
              DigitalInput.newConfigBuilder(context)
                  .id(name)
                  .address(line)
                  .pull(PullResistance.OFF)
                  .debounce(0L)
                  .build());
      return new InputLine(name, input);
    } catch (RuntimeException e) {
      throw noLine(name, line, e);
    }
  }

  private OutputLine output(Providers providers, String name) throws PiTrouble {
    int line = board.line(name);
    try {
      DigitalOutputProvider provider = context.provider(providers.digitalOutput());
      DigitalOutput output =
          provider.create(
              DigitalOutput.newConfigBuilder(context)
                  .id(name)
                  .address(line)
                  .initial(DigitalState.LOW)
                  .build());
      return new OutputLine(name, output);
    } catch (RuntimeException e) {
      throw noLine(name, line, e);
    }
  }

  private static PiTrouble noLine(String name, int line, RuntimeException cause) {
    return new PiTrouble(
        name
            + ": GPIO "
            + line
            + " cannot be claimed; join the group 'gpio', end other users of it",
        cause);
  }

  @Override
  public void close() {
    for (Spi device : devices) {
      device.close();
    }
    devices.clear();
    context.shutdown();
  }
}
