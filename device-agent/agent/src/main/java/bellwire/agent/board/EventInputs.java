package bellwire.agent.board;

import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.chip.Expanders;
import bellwire.agent.chip.OutputLine;
import bellwire.board.BoardDescription;

/**
 * The event path: wetting, and a comparator and a latch a port. Which ports are held at common is
 * the crosspoint's. Port masks have bit 0 for P1.
 */
public final class EventInputs {
  private final Expanders expanders;
  private final OutputLine capture;
  private final int wordAddress;
  private final int latchesAddress;
  private final int controlAddress;
  private final int wettingPin;
  private final int touchPin;
  private int control;

  EventInputs(BoardDescription board, Expanders expanders, OutputLine capture) {
    this.expanders = expanders;
    this.capture = capture;
    wordAddress = board.expander("event-word");
    latchesAddress = board.expander("event-latches");
    controlAddress = board.expander("event-control");
    wettingPin = 1 << board.expander("event-wetting-bit");
    touchPin = 1 << board.expander("event-touch-bit");
  }

  void beginReset() throws ChipTrouble {
    capture.set(false);
    expanders.makeOutputs(controlAddress);
    control = 0;
    expanders.makeInputs(wordAddress);
    expanders.makeInputs(latchesAddress);
  }

  /**
   * Takes comparators and latches of one instant over into the registers, and resets the latches.
   */
  public void capture() throws ChipTrouble {
    capture.set(true);
    capture.set(false);
  }

  /** Ports above the threshold at the last capture. One transfer. */
  public int word() throws ChipTrouble {
    return expanders.get(wordAddress);
  }

  /**
   * Ports on the side looked for at any time between the last two captures, the blind time after
   * each edge of the crosspoint left out. One transfer.
   */
  public int latches() throws ChipTrouble {
    return expanders.get(latchesAddress);
  }

  /**
   * Switches the wetting, as far as the interlock's latch lets it.
   *
   * @param touch whether the latches look for ports below the threshold, not above it
   */
  public void feed(boolean wetting, boolean touch) throws ChipTrouble {
    expanders.verifyOutputs(controlAddress);
    control((wetting ? wettingPin : 0) | (touch ? touchPin : 0));
  }

  /**
   * Proves that the chips still listen to their addresses: those of the registers would give zeros,
   * and that of the wetting would have let it go.
   */
  public void verify() throws ChipTrouble {
    expanders.verifyInputs(wordAddress);
    expanders.verifyInputs(latchesAddress);
    expanders.verifyOutputs(controlAddress);
    expanders.verifyPins(controlAddress, control);
  }

  /** Whether the wetting may be on, as far as this board was told. */
  boolean wetting() {
    return (control & wettingPin) != 0;
  }

  void rest() throws ChipTrouble {
    control(0);
  }

  private void control(int pins) throws ChipTrouble {
    // Noted first, as in SensingBoard: after a failed write the pins may be either; and never
    // noted as at rest before they are.
    control |= pins;
    expanders.set(controlAddress, pins);
    control = pins;
  }
}
