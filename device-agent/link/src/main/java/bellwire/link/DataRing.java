package bellwire.link;

/** A keep in memory only, bounded in frames and bytes. */
public final class DataRing implements FrameKeep {
  private final byte[][] frames;
  private final long maxBytes;
  private long oldest;
  private long next;
  private long bytes;
  private long dropped;

  /**
   * @param maxFrames kept at most
   * @param maxBytes their bytes at most, one frame at least
   */
  public DataRing(int maxFrames, long maxBytes) {
    if (maxFrames < 1 || maxBytes < FrameCodec.MAX_FRAME_BYTES) {
      throw new IllegalArgumentException("ring frames=" + maxFrames + " bytes=" + maxBytes);
    }
    this.frames = new byte[maxFrames][];
    this.maxBytes = maxBytes;
  }

  @Override
  public long oldest() {
    return oldest;
  }

  @Override
  public long next() {
    return next;
  }

  /** Of the frames kept. */
  public long bytes() {
    return bytes;
  }

  @Override
  public long dropped() {
    return dropped;
  }

  @Override
  public void add(byte[] frame) {
    while (next - oldest == frames.length || (bytes + frame.length > maxBytes && next > oldest)) {
      removeOldest();
      dropped++;
    }
    frames[slot(next)] = frame;
    bytes += frame.length;
    next++;
  }

  @Override
  public byte[] get(long sequence) {
    if (sequence < oldest || sequence >= next) {
      throw new IllegalArgumentException(
          "sequence=" + sequence + " oldest=" + oldest + " next=" + next);
    }
    return frames[slot(sequence)];
  }

  @Override
  public void releaseBelow(long sequence) {
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
