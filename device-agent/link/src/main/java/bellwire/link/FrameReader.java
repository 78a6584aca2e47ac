package bellwire.link;

import java.util.Arrays;
import java.util.function.Consumer;

/**
 * Finds frames in a stream of bytes cut anywhere. What is damaged or too long is counted and
 * dropped, and reading goes on behind the next delimiter. Holds at most one frame.
 */
public final class FrameReader {

  /**
   * @param frames whole frames handed out
   * @param damaged dropped for a bad checksum, bad stuffing or no content
   * @param oversized dropped for their length
   */
  public record Counts(long frames, long damaged, long oversized) {}

  private byte[] pending = new byte[1024];
  private int length;
  private boolean oversize;
  private long frames;
  private long damaged;
  private long oversized;

  /** Hands each item that ends in these bytes to {@code items}, in order. */
  public void feed(byte[] bytes, int off, int len, Consumer<byte[]> items) {
    int end = off + len;
    int from = off;
    for (int i = off; i < end; i++) {
      if (bytes[i] == FrameCodec.DELIMITER) {
        append(bytes, from, i - from);
        from = i + 1;
        finish(items);
      }
    }
    append(bytes, from, end - from);
  }

  /** Forgets a frame begun: the line was cut. */
  public void reset() {
    if (length > 0) {
      damaged++;
    }
    length = 0;
    oversize = false;
  }

  public Counts counts() {
    return new Counts(frames, damaged, oversized);
  }

  private void append(byte[] bytes, int off, int count) {
    int taken = Math.min(count, FrameCodec.MAX_FRAME_BYTES - 1 - length);
    if (length + taken > pending.length) {
      int size = Math.max(2 * pending.length, length + taken);
      pending = Arrays.copyOf(pending, Math.min(size, FrameCodec.MAX_FRAME_BYTES));
    }
    System.arraycopy(bytes, off, pending, length, taken);
    length += taken;
    if (taken < count) {
      if (!oversize) {
        oversized++;
      }
      oversize = true;
    }
  }

  private void finish(Consumer<byte[]> items) {
    int size = length;
    boolean skip = oversize || size == 0; // delimiters in a row are idle line, not damage
    length = 0;
    oversize = false;
    if (skip) {
      return;
    }
    byte[] item;
    try {
      item = FrameCodec.decode(pending, 0, size);
    } catch (LinkFormatException e) {
      damaged++;
      return;
    }
    frames++;
    items.accept(item);
  }
}
