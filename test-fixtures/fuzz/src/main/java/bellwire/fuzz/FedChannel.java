package bellwire.fuzz;

import bellwire.link.ByteChannel;
import bellwire.link.FrameReader;
import java.io.ByteArrayOutputStream;
import java.util.function.Consumer;

/** A serial line that gives an end what it is fed, and reads what that end writes. */
final class FedChannel implements ByteChannel {
  private final ByteArrayOutputStream fed = new ByteArrayOutputStream();
  private final FrameReader written = new FrameReader();
  private final Consumer<byte[]> items;
  private byte[] coming = {};
  private int given;
  private boolean gone;
  private long writtenBytes;

  /**
   * @param items told each item that the end writes
   */
  FedChannel(Consumer<byte[]> items) {
    this.items = items;
  }

  void feed(byte[] bytes) {
    fed.writeBytes(bytes);
  }

  void cut() {
    gone = true;
  }

  long writtenBytes() {
    return writtenBytes;
  }

  @Override
  public int read(byte[] into) {
    if (gone) {
      return -1;
    }
    if (given == coming.length) {
      coming = fed.toByteArray();
      fed.reset();
      given = 0;
    }
    int length = Math.min(into.length, coming.length - given);
    System.arraycopy(coming, given, into, 0, length);
    given += length;
    return length;
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    writtenBytes += len;
    written.feed(bytes, off, len, items);
    Finding.unless(
        written.counts().damaged() + written.counts().oversized() == 0,
        "wrote what is no frame: %s",
        written.counts());
  }
}
