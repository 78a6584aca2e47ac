package bellwire.simbench.pi4j;

import bellwire.board.BoardDescription;
import bellwire.simbench.chip.BoardChips;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalInputBase;
import com.pi4j.io.gpio.digital.DigitalInputConfig;
import com.pi4j.io.gpio.digital.DigitalInputProvider;
import com.pi4j.io.gpio.digital.DigitalInputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;
import java.util.List;
import java.util.function.BooleanSupplier;

/** An input line of the Pi that shows a simulated chip's pin; polled, without events. */
final class SimulatedInput extends DigitalInputBase {
  static final String ID = "simbench-digital-input";

  private final BooleanSupplier high;

  SimulatedInput(DigitalInputProvider provider, DigitalInputConfig config, BooleanSupplier high) {
    super(provider, config);
    this.high = high;
  }

  @Override
  public DigitalState state() {
    return high.getAsBoolean() ? DigitalState.HIGH : DigitalState.LOW;
  }

  /** Knows which line is which. */
  static final class Provider extends DigitalInputProviderBase implements DigitalInputProvider {
    private static final List<String> LINES =
        List.of("data-ready", "interlock-tripped", "interlock-outside");

    private final BoardChips chips;
    private final BoardDescription board;

    Provider(BoardChips chips, BoardDescription board) {
      super(ID, "simulated input lines");
      this.chips = chips;
      this.board = board;
    }

    @Override
    public DigitalInput create(DigitalInputConfig config) {
      for (String line : LINES) {
        if (board.line(line) == config.address()) {
          DigitalInput input = new SimulatedInput(this, config, () -> chips.lineHigh(line));
          context().registry().add(input);
          return input;
        }
      }
      throw new IllegalArgumentException("no input on line=" + config.address());
    }
  }
}
