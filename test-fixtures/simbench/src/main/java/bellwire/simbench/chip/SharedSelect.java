package bellwire.simbench.chip;

import java.util.Arrays;
import java.util.List;

/** Expanders on one chip select. Outputs that are not driven leave the data line low. */
public final class SharedSelect implements SpiTarget {
  private final ExpanderChip[] chips;
  private final byte[] sent = new byte[64];
  private final byte[] heard = new byte[64];
  private final byte[] sum = new byte[64];

  public SharedSelect(List<ExpanderChip> chips) {
    this.chips = chips.toArray(ExpanderChip[]::new);
  }

  @Override
  public void frame(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    if (length > sent.length) {
      throw new IllegalArgumentException("length=" + length);
    }
    // Who answers is settled by the first byte, before it can change who answers.
    int answering = 0;
    for (int i = 0; i < chips.length; i++) {
      if (chips[i].answers(fromMaster[fromMasterAt])) {
        answering |= 1 << i;
      }
    }
    if (Integer.bitCount(answering) == 1 && fromMaster != toMaster) {
      chips[Integer.numberOfTrailingZeros(answering)].frame(
          fromMaster, fromMasterAt, toMaster, toMasterAt, length);
      return;
    }
    System.arraycopy(fromMaster, fromMasterAt, sent, 0, length);
    Arrays.fill(sum, 0, length, (byte) 0);
    for (int i = 0; i < chips.length; i++) {
      if ((answering & 1 << i) != 0) {
        chips[i].frame(sent, 0, heard, 0, length);
        for (int k = 0; k < length; k++) {
          sum[k] |= heard[k];
        }
      }
    }
    System.arraycopy(sum, 0, toMaster, toMasterAt, length);
  }
}
