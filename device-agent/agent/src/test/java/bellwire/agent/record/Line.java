package bellwire.agent.record;

import bellwire.link.ByteChannel;
import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Random;

/** Both directions of a serial line in virtual time, at a rate; it can be cut, or change bytes. */
final class Line {
  private final Random random;
  private final int bytesPerStep;
  private final ByteArrayOutputStream[] written = {
    new ByteArrayOutputStream(), new ByteArrayOutputStream()
  };
  private final byte[][] arrived = new byte[2][0];
  boolean cut;

  /** Chance of a byte in a written piece to change. */
  double changed;

  Line(Random random, int bytesPerStep) {
    this.random = random;
    this.bytesPerStep = bytesPerStep;
  }

  void cut(boolean now) {
    cut = now;
    for (int i = 0; i < 2; i++) {
      written[i].reset();
      arrived[i] = new byte[0];
    }
  }

  /** Lets a step's worth of bytes arrive. */
  void move() {
    for (int i = 0; i < 2; i++) {
      byte[] waiting = written[i].toByteArray();
      int length = Math.min(bytesPerStep, waiting.length);
      int before = arrived[i].length;
      arrived[i] = Arrays.copyOf(arrived[i], before + length);
      System.arraycopy(waiting, 0, arrived[i], before, length);
      written[i].reset();
      written[i].write(waiting, length, waiting.length - length);
    }
  }

  /** One of its ends, 0 or 1. */
  ByteChannel end(int end) {
    return new ByteChannel() {
      @Override
      public int read(byte[] into) {
        byte[] there = arrived[end];
        int length = Math.min(into.length, there.length);
        System.arraycopy(there, 0, into, 0, length);
        arrived[end] = Arrays.copyOfRange(there, length, there.length);
        return length;
      }

      @Override
      public void write(byte[] bytes, int off, int len) {
        if (!cut) {
          byte[] piece = Arrays.copyOfRange(bytes, off, off + len);
          if (random.nextDouble() < changed) {
            piece[random.nextInt(len)] ^= (byte) (1 << random.nextInt(8));
          }
          written[1 - end].writeBytes(piece);
        }
      }
    };
  }
}
