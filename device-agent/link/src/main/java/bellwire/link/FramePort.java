package bellwire.link;

import java.util.function.Consumer;

/**
 * A byte channel with frames on it, for one end. Keeps account of when the bytes written will have
 * left at the line's rate, so that no timeout runs while they still do.
 */
final class FramePort {
  private static final int READS_PER_STEP = 16;
  private static final byte[] DELIMITER = {FrameCodec.DELIMITER};

  private final FrameReader reader = new FrameReader();
  private final byte[] buffer = new byte[4096];
  private final long lineBytesPerSecond;
  private ByteChannel channel;
  private long now;
  private long lineFreeMicros;
  private long carriedMicros;
  private boolean gone;

  FramePort(ByteChannel channel, long lineBytesPerSecond) {
    if (lineBytesPerSecond < 1) {
      throw new IllegalArgumentException("lineBytesPerSecond=" + lineBytesPerSecond);
    }
    this.channel = channel;
    this.lineBytesPerSecond = lineBytesPerSecond;
  }

  void attach(ByteChannel other) {
    channel = other;
    gone = false;
    lineFreeMicros = now;
    reader.reset();
  }

  /**
   * Reads what has arrived, within a bound, and hands on the whole frames' items.
   *
   * @return bytes read
   */
  int read(long nowMicros, Consumer<byte[]> items) {
    now = nowMicros;
    int total = 0;
    for (int i = 0; i < READS_PER_STEP && !gone; i++) {
      int length = channel.read(buffer);
      gone = length < 0;
      if (length <= 0) {
        break;
      }
      total += length;
      reader.feed(buffer, 0, length, items);
    }
    return total;
  }

  /** Ends whatever half frame the other end may have of before. */
  void writeDelimiter() {
    write(DELIMITER);
  }

  void writeItem(byte[] item) {
    write(FrameCodec.encode(item));
  }

  void write(byte[] frame) {
    long takes = (frame.length * 1_000_000L + lineBytesPerSecond - 1) / lineBytesPerSecond;
    lineFreeMicros = Math.max(lineFreeMicros, now) + takes;
    carriedMicros += takes;
    if (!gone) {
      channel.write(frame, 0, frame.length);
    }
  }

  /** When all that was written will have left; in the past when the line is idle. */
  long lineFreeMicros() {
    return lineFreeMicros;
  }

  /** Time that all bytes ever written take on the line; differences tell how long it was busy. */
  long carriedMicros() {
    return carriedMicros;
  }

  /** The device is gone; nothing passes until another channel is attached. */
  boolean gone() {
    return gone;
  }

  FrameReader.Counts counts() {
    return reader.counts();
  }
}
