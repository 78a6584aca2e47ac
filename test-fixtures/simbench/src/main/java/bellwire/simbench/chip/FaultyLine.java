package bellwire.simbench.chip;

import java.util.Arrays;
import java.util.random.RandomGenerator;

/** The data lines between a chip and the Pi, which can be made to fail. */
public final class FaultyLine implements SpiTarget {

  /** What the lines do. */
  public enum Fault {
    NONE,
    /** Every byte reads 0x00. */
    STUCK_LOW,
    /** Every byte reads 0xFF. */
    STUCK_HIGH,
    /** What the Pi says arrives as 0x00; the chip is heard. */
    UNHEARD,
    /** With the given probability, one bit of a frame arrives inverted, one way or the other. */
    BIT_FLIPS
  }

  private final SpiTarget target;
  private final RandomGenerator random;
  private Fault fault = Fault.NONE;
  private double probability;

  public FaultyLine(SpiTarget target, RandomGenerator random) {
    this.target = target;
    this.random = random;
  }

  /**
   * @param probability of a flip in a frame; used by {@link Fault#BIT_FLIPS}
   */
  public void fail(Fault fault, double probability) {
    this.fault = fault;
    this.probability = probability;
  }

  @Override
  public void frame(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    if (fault == Fault.BIT_FLIPS && random.nextDouble() < probability) {
      flipped(fromMaster, fromMasterAt, toMaster, toMasterAt, length);
      return;
    }
    boolean heard = fault != Fault.UNHEARD;
    target.frame(
        heard ? fromMaster : new byte[length],
        heard ? fromMasterAt : 0,
        toMaster,
        toMasterAt,
        length);
    switch (fault) {
      case NONE, UNHEARD, BIT_FLIPS -> {}
      case STUCK_LOW -> Arrays.fill(toMaster, toMasterAt, toMasterAt + length, (byte) 0);
      case STUCK_HIGH -> Arrays.fill(toMaster, toMasterAt, toMasterAt + length, (byte) 0xFF);
    }
  }

  private void flipped(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    int bit = random.nextInt(8 * length);
    int mask = 1 << bit % 8;
    if (random.nextBoolean()) {
      target.frame(fromMaster, fromMasterAt, toMaster, toMasterAt, length);
      toMaster[toMasterAt + bit / 8] ^= (byte) mask;
    } else {
      byte[] heard = Arrays.copyOfRange(fromMaster, fromMasterAt, fromMasterAt + length);
      heard[bit / 8] ^= (byte) mask;
      target.frame(heard, 0, toMaster, toMasterAt, length);
    }
  }
}
