package bellwire.soak;

import bellwire.soak.Mishap.Kind;
import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * One direction of the serial line, and what it does to bytes: within what a serial line can do,
 * for whoever reads takes whatever has come in as many bytes as he asks for.
 */
final class Wire {
  private static final int MOST_IN_A_RUN = 40;

  private final SplittableRandom random;
  private byte[] held = new byte[0];
  long spoilt;

  Wire(SplittableRandom random) {
    this.random = random;
  }

  /**
   * What arrives of what was sent.
   *
   * @param on how strongly each kind of mishap is on, by its ordinal; 0 for not
   */
  byte[] carry(byte[] sent, double[] on) {
    byte[] bytes = held.length == 0 ? sent : joined(sent, held); // in the other order
    held = new byte[0];
    if (bytes.length == 0) {
      return bytes;
    }
    if (on[Kind.LINE_CUT.ordinal()] > 0) {
      return new byte[0];
    }
    if (chance(on[Kind.CHUNKS_SWAPPED.ordinal()])) {
      held = bytes;
      return new byte[0];
    }
    if (chance(on[Kind.CHUNKS_DOUBLED.ordinal()])) {
      bytes = joined(bytes, bytes);
    }
    double errors = on[Kind.BYTE_ERRORS.ordinal()];
    double dropped = on[Kind.BYTES_DROPPED.ordinal()];
    return errors == 0 && dropped == 0 ? bytes : spoilt(bytes, errors, dropped);
  }

  private byte[] spoilt(byte[] bytes, double errors, double dropped) {
    byte[] arrived = new byte[bytes.length];
    int size = 0;
    for (int i = 0; i < bytes.length; i++) {
      if (chance(dropped)) {
        i += random.nextInt(MOST_IN_A_RUN);
        continue;
      }
      boolean wrong = errors > 0 && chance(errors);
      arrived[size++] = wrong ? (byte) random.nextInt(256) : bytes[i];
    }
    return Arrays.copyOf(arrived, size);
  }

  private boolean chance(double p) {
    if (p <= 0 || random.nextDouble() >= p) {
      return false;
    }
    spoilt++;
    return true;
  }

  private static byte[] joined(byte[] a, byte[] b) {
    byte[] both = Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, both, a.length, b.length);
    return both;
  }
}
