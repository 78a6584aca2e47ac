package bellwire.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;

/** The other end of one endpoint, played by the test: frames put in by hand, frames out decoded. */
final class Wire implements ByteChannel {
  private final ByteArrayOutputStream in = new ByteArrayOutputStream();
  private final FrameReader reader = new FrameReader();
  private final List<Incoming> out = new ArrayList<>();
  boolean gone;

  void put(Message message) {
    putItem(MessageCodec.encode(message));
  }

  void put(DataFrame frame) {
    putItem(MessageCodec.encode(frame));
  }

  void putItem(byte[] item) {
    in.writeBytes(FrameCodec.encode(item));
  }

  /** What the endpoint has written since the last call. */
  List<Incoming> taken() {
    List<Incoming> all = List.copyOf(out);
    out.clear();
    return all;
  }

  /** Messages of one type among those taken. */
  <T extends Message> List<T> taken(Class<T> type) {
    List<T> messages = new ArrayList<>();
    for (Incoming incoming : taken()) {
      if (incoming instanceof Incoming.Plain plain && type.isInstance(plain.message())) {
        messages.add(type.cast(plain.message()));
      }
    }
    return messages;
  }

  /** Numbers of the data frames taken. */
  List<Long> takenSequences() {
    List<Long> sequences = new ArrayList<>();
    for (Incoming incoming : taken()) {
      if (incoming instanceof DataFrame frame) {
        sequences.add(frame.sequence());
      }
    }
    return sequences;
  }

  @Override
  public int read(byte[] into) {
    if (gone) {
      return -1;
    }
    byte[] all = in.toByteArray();
    int length = Math.min(into.length, all.length);
    System.arraycopy(all, 0, into, 0, length);
    in.reset();
    in.write(all, length, all.length - length);
    return length;
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    reader.feed(
        bytes,
        off,
        len,
        item -> {
          try {
            out.add(MessageCodec.decode(item));
          } catch (LinkFormatException e) {
            throw new AssertionError(e);
          }
        });
  }
}
