package bellwire.agent.chip;

import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalState;

/** A line from the board, polled: listeners can miss edges. */
public final class InputLine {
  private final String name;
  private final DigitalInput input;

  public InputLine(String name, DigitalInput input) {
    this.name = name;
    this.input = input;
  }

  public boolean isHigh() throws ChipTrouble {
    DigitalState state;
    try {
      state = input.state();
    } catch (RuntimeException e) {
      throw new ChipTrouble(name, "the line " + name + " could not be read: " + e.getMessage());
    }
    if (state == DigitalState.UNKNOWN) {
      throw new ChipTrouble(name, "the line " + name + " could not be read");
    }
    return state == DigitalState.HIGH;
  }
}
