package bellwire.simbench.pi4j;

import bellwire.board.BoardDescription;
import bellwire.simbench.chip.BoardChips;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputBase;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalOutputProvider;
import com.pi4j.io.gpio.digital.DigitalOutputProviderBase;
import com.pi4j.io.gpio.digital.DigitalState;
import java.util.List;

/** An output line of the Pi that leads to the simulated board; no events are raised. */
final class SimulatedOutput extends DigitalOutputBase {
  static final String ID = "simbench-digital-output";

  private final BoardChips chips;
  private final String line;

  SimulatedOutput(
      DigitalOutputProvider provider, DigitalOutputConfig config, BoardChips chips, String line) {
    super(provider, config);
    this.chips = chips;
    this.line = line;
  }

  @Override
  public DigitalOutput state(DigitalState state) {
    this.state = state;
    chips.setLine(line, state == DigitalState.HIGH);
    return this;
  }

  /** Knows which line is which. */
  static final class Provider extends DigitalOutputProviderBase implements DigitalOutputProvider {
    private static final List<String> LINES = List.of("heartbeat", "rearm", "event-capture");

    private final BoardChips chips;
    private final BoardDescription board;

    Provider(BoardChips chips, BoardDescription board) {
      super(ID, "simulated output lines");
      this.chips = chips;
      this.board = board;
    }

    @Override
    public DigitalOutput create(DigitalOutputConfig config) {
      for (String line : LINES) {
        if (board.line(line) == config.address()) {
          DigitalOutput output = new SimulatedOutput(this, config, chips, line);
          context().registry().add(output);
          return output;
        }
      }
      throw new IllegalArgumentException("no output on line=" + config.address());
    }
  }
}
