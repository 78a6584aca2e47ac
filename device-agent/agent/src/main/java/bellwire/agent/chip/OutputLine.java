package bellwire.agent.chip;

import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;

/** A line to the board. Low at the start. */
public final class OutputLine {
  private final String name;
  private final DigitalOutput output;
  private boolean high;

  public OutputLine(String name, DigitalOutput output) {
    this.name = name;
    this.output = output;
  }

  public void set(boolean high) throws ChipTrouble {
    try {
      output.state(high ? DigitalState.HIGH : DigitalState.LOW);
    } catch (RuntimeException e) {
      throw new ChipTrouble(name, "the line " + name + " could not be set: " + e.getMessage());
    }
    this.high = high;
  }

  /** One edge, in whichever direction is due. */
  public void toggle() throws ChipTrouble {
    set(!high);
  }
}
