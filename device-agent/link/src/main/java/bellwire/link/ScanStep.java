package bellwire.link;

/**
 * One switch state of the sensing board and the conversions to take in it. The host writes programs
 * out of these; the agent carries them out and never computes with what it reads.
 *
 * <p>Port masks have bit 0 for P1 to bit 15 for P16 and bit 16 for M. A port in no mask floats; the
 * three masks are disjoint.
 *
 * @param drive ports on the drive bus
 * @param returned ports on the return bus
 * @param guard ports on the guard bus, held at board common
 * @param excite whether the excitation source stands at its voltage, or at board common
 * @param range what the return bus ends in
 * @param check a check resistor of the board's own from drive bus to return bus, instead of a cable
 * @param testLoad whether the test load is on every port; only with all three masks empty
 * @param plus tap at the converter's positive input
 * @param minus tap at the converter's negative input
 * @param gain converter gain, a power of two from 1 to 128
 * @param rate conversions per second
 * @param settleMicros least time from the latch edge to the start of the first conversion, 0 to
 *     16000
 * @param repeats conversions to take, 1 to 4096, back to back after the first
 */
public record ScanStep(
    int drive,
    int returned,
    int guard,
    boolean excite,
    Range range,
    Check check,
    boolean testLoad,
    Tap plus,
    Tap minus,
    int gain,
    Rate rate,
    int settleMicros,
    int repeats) {

  public static final int PORTS = 17;
  public static final int METAL = 16;
  public static final int MAX_SETTLE_MICROS = 16_000;
  public static final int MAX_REPEATS = 4096;
  private static final int ALL = (1 << PORTS) - 1;

  public ScanStep {
    if (((drive | returned | guard) & ~ALL) != 0) {
      throw new IllegalArgumentException(
          "port mask beyond P16 and M: drive="
              + drive
              + " returned="
              + returned
              + " guard="
              + guard);
    }
    if ((drive & returned) != 0 || (drive & guard) != 0 || (returned & guard) != 0) {
      throw new IllegalArgumentException(
          "a port on two buses: drive=" + drive + " returned=" + returned + " guard=" + guard);
    }
    if (gain < 1 || gain > 128 || Integer.bitCount(gain) != 1) {
      throw new IllegalArgumentException("gain=" + gain);
    }
    if (settleMicros < 0 || settleMicros > MAX_SETTLE_MICROS) {
      throw new IllegalArgumentException("settleMicros=" + settleMicros);
    }
    if (repeats < 1 || repeats > MAX_REPEATS) {
      throw new IllegalArgumentException("repeats=" + repeats);
    }
    if (testLoad && (drive | returned | guard) != 0) {
      throw new IllegalArgumentException(
          "test load with connected ports: drive="
              + drive
              + " returned="
              + returned
              + " guard="
              + guard);
    }
  }

  /**
   * Whether this step closes a connect relay or raises the excitation; only then does it need the
   * interlock clear.
   */
  public boolean drives() {
    return excite || (drive | returned | guard) != 0;
  }
}
