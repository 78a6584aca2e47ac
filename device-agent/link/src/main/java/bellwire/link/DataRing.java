package bellwire.link;

/**
 * The data frames that the host has not acknowledged, by number, as bytes ready to send. Bounded in
 * frames and bytes: the oldest makes room.
 */
final class DataRing {
  private final byte[][] frames;
  private final long maxBytes;
  private long oldest;
  private long next;
  private long bytes;
  private long dropped;

  DataRing(int maxFrames, long maxBytes) {
    if (maxFrames < 1 || maxBytes < FrameCodec.MAX_FRAME_BYTES) {
      throw new IllegalArgumentException("ring frames=" + maxFrames + " bytes=" + maxBytes);
    }
    this.frames = new byte[maxFrames][];
    this.maxBytes = maxBytes;
  }

  long oldest() {
    return oldest;
  }

  /** Number of the next new frame; frames oldest to next − 1 are kept. */
  long next() {
    return next;
  }

  long bytes() {
    return bytes;
  }

  /** Frames lost unacknowledged because the ring was full. */
  long dropped() {
    return dropped;
  }

  void add(byte[] frame) {
    while (next - oldest == frames.length || (bytes + frame.length > maxBytes && next > oldest)) {
      removeOldest();
      dropped++;
    }
    frames[slot(next)] = frame;
    bytes += frame.length;
    next++;
  }

  byte[] get(long sequence) {
    if (sequence < oldest || sequence >= next) {
      throw new IllegalArgumentException(
          "sequence=" + sequence + " oldest=" + oldest + " next=" + next);
    }
    return frames[slot(sequence)];
  }

  void releaseBelow(long sequence) {
    while (oldest < sequence && oldest < next) {
      removeOldest();
    }
  }

  private void removeOldest() {
    int slot = slot(oldest);
    bytes -= frames[slot].length;
    frames[slot] = new byte[0];
    oldest++;
  }

  private int slot(long sequence) {
    return (int) (sequence % frames.length);
  }
}
