package bellwire.link;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Random;

/**
 * One direction of a serial line in virtual time: bytes arrive in order after a delay, at a rate,
 * and from a seed they are lost, changed, doubled (a piece at a time, behind itself) or cut off.
 */
final class TestLine {
  /**
   * @param lost chance of a written piece to vanish, wholly or its end
   * @param changed chance of a byte in a piece to change
   * @param doubled chance of a piece to arrive twice
   */
  record Harm(double lost, double changed, double doubled) {
    static final Harm NONE = new Harm(0, 0, 0);
  }

  private final Random random;
  private final ByteArrayOutputStream written = new ByteArrayOutputStream();
  private byte[] arrived = new byte[0];
  private Harm harm;
  private boolean cut;
  private boolean gone;
  private final int bytesPerStep;

  TestLine(Random random, Harm harm, int bytesPerStep) {
    this.random = random;
    this.harm = harm;
    this.bytesPerStep = bytesPerStep;
  }

  void harm(Harm other) {
    harm = other;
  }

  /** Nothing passes while cut; what is on its way is lost. */
  void cut(boolean now) {
    cut = now;
    written.reset();
    arrived = new byte[0];
  }

  void gone(boolean now) {
    gone = now;
  }

  void write(byte[] bytes, int off, int len) {
    if (cut) {
      return;
    }
    byte[] piece = Arrays.copyOfRange(bytes, off, off + len);
    if (random.nextDouble() < harm.lost) {
      piece = Arrays.copyOf(piece, random.nextInt(piece.length));
    }
    if (piece.length > 0 && random.nextDouble() < harm.changed) {
      piece[random.nextInt(piece.length)] ^= (byte) (1 << random.nextInt(8));
    }
    written.writeBytes(piece);
    if (random.nextDouble() < harm.doubled) {
      written.writeBytes(piece);
    }
  }

  int read(byte[] into) {
    if (gone) {
      return -1;
    }
    int limit = Math.min(into.length, 1 + random.nextInt(into.length));
    int length = Math.min(limit, arrived.length);
    System.arraycopy(arrived, 0, into, 0, length);
    arrived = Arrays.copyOfRange(arrived, length, arrived.length);
    return length;
  }

  /** Lets one step's worth of bytes arrive. */
  void move() {
    byte[] waiting = written.toByteArray();
    int length = Math.min(bytesPerStep, waiting.length);
    int before = arrived.length;
    arrived = Arrays.copyOf(arrived, before + length);
    System.arraycopy(waiting, 0, arrived, before, length);
    written.reset();
    written.write(waiting, length, waiting.length - length);
  }

  /** The end that reads from one line and writes to another. */
  static ByteChannel channel(TestLine in, TestLine out) {
    return new ByteChannel() {
      @Override
      public int read(byte[] into) {
        return in.read(into);
      }

      @Override
      public void write(byte[] bytes, int off, int len) {
        out.write(bytes, off, len);
      }
    };
  }
}
