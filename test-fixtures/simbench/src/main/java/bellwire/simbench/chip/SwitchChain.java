package bellwire.simbench.chip;

import bellwire.simbench.AnalogSide;
import bellwire.simbench.EventSide;
import bellwire.simbench.VirtualClock;

/**
 * Octal switches in a chain (ADG714 class): a 64-bit shift register, most significant bit first in,
 * whose last 64 bits count as chip select rises, and whose end is wired back. Source: ADG714/ADG715
 * data sheet rev. E, "Serial interface", "Daisy-chaining" and "Power-on reset".
 */
public final class SwitchChain implements SpiTarget {
  private final AnalogSide analog;
  private final EventSide events;
  private final VirtualClock clock;
  private final Runnable latchEdge;
  private long word;

  /**
   * @param latchEdge what else the rising chip select does on the board
   */
  public SwitchChain(AnalogSide analog, EventSide events, VirtualClock clock, Runnable latchEdge) {
    this.analog = analog;
    this.events = events;
    this.clock = clock;
    this.latchEdge = latchEdge;
  }

  /** Switches closed at present. */
  public long word() {
    return word;
  }

  /** Every switch open. */
  void powerOn() {
    word = 0;
    latch();
  }

  @Override
  public void frame(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    for (int i = 0; i < length; i++) {
      int in = fromMaster[fromMasterAt + i] & 0xFF; // both arrays may be one
      toMaster[toMasterAt + i] = (byte) (word >>> 56);
      word = word << 8 | in;
    }
    latch();
    latchEdge.run();
  }

  private void latch() {
    analog.latchChain(word, clock.nanos());
    events.latchChain(word, clock.nanos());
  }
}
