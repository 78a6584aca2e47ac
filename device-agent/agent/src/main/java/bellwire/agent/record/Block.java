package bellwire.agent.record;

import bellwire.link.DataFrame;
import bellwire.link.FrameCodec;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import java.util.zip.CRC32C;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;
import org.jspecify.annotations.Nullable;

/**
 * Frames with consecutive numbers as they stand in a segment; all numbers low byte first.
 *
 * <pre>
 *   0   4  "BwF1"
 *   4   4  bytes of the body as stored
 *   8   4  bytes of the body before Deflate
 *  12   4  number of the first frame
 *  16   2  frames, 1 to 1024
 *  18   1  1: body is deflated (RFC 1951)  2: what is before the first frame was not to be recorded
 *  19   1  0
 *  20   8  boot identifier
 *  28   4  CRC-32C of bytes 0 to 27
 *  32   n  body: of each frame 2 bytes of length and its item; length 0: carried
 *  32+n 4  CRC-32C of the body as stored
 * </pre>
 *
 * A carried frame handed over an earlier boot's, which stands elsewhere in the record.
 *
 * @param boot whose frames
 * @param items of each frame the CBOR item; empty: carried
 * @param begins nothing is missing before the first frame
 */
record Block(long boot, long first, boolean begins, List<byte[]> items) {
  static final int HEADER_BYTES = 32;
  static final int MAX_FRAMES = 1024;

  /** So that a block's body stays below this and one item. */
  static final int FULL_BYTES = 1 << 18;

  private static final int MAGIC = 'B' | 'w' << 8 | 'F' << 16 | '1' << 24;
  private static final int CHECKED_BYTES = 28;
  private static final int CHECKSUM_BYTES = 4;
  private static final int MAX_BODY_BYTES = FULL_BYTES + FrameCodec.MAX_ITEM_BYTES + 3 * MAX_FRAMES;
  private static final int DEFLATED = 1;
  private static final int BEGINS = 2;

  Block {
    items = List.copyOf(items);
    if (items.isEmpty() || items.size() > MAX_FRAMES) {
      throw new IllegalArgumentException("frames=" + items.size());
    }
  }

  long end() {
    return first + items.size();
  }

  byte[] encode() {
    ByteArrayOutputStream plain = new ByteArrayOutputStream();
    for (byte[] item : items) {
      plain.write(item.length);
      plain.write(item.length >> 8);
      plain.writeBytes(item);
    }
    byte[] body = plain.toByteArray();
    byte[] deflated = deflate(body);
    boolean smaller = deflated.length < body.length;
    byte[] stored = smaller ? deflated : body;
    ByteBuffer bytes =
        ByteBuffer.allocate(HEADER_BYTES + stored.length + CHECKSUM_BYTES)
            .order(ByteOrder.LITTLE_ENDIAN)
            .putInt(MAGIC)
            .putInt(stored.length)
            .putInt(body.length)
            .putInt((int) first)
            .putShort((short) items.size())
            .put((byte) ((smaller ? DEFLATED : 0) | (begins ? BEGINS : 0)))
            .put((byte) 0)
            .putLong(boot);
    bytes.putInt(checksum(bytes.array(), 0, CHECKED_BYTES));
    bytes.put(stored).putInt(checksum(stored, 0, stored.length));
    return bytes.array();
  }

  /** Where a header stands whose checksum is right, from a place on; the length for none. */
  static int find(byte[] file, int from, int length) {
    for (int at = from; at <= length - HEADER_BYTES; at++) {
      if (file[at] == 'B' && at(file, at, 0) == MAGIC) {
        int stored = at(file, at, 4);
        if (at(file, at, CHECKED_BYTES) == checksum(file, at, CHECKED_BYTES)
            && stored >= 0
            && stored <= MAX_BODY_BYTES) {
          return at;
        }
      }
    }
    return length;
  }

  /** Where the block ends whose header stands here; may be beyond the file's end. */
  static int end(byte[] file, int header) {
    return header + HEADER_BYTES + at(file, header, 4) + CHECKSUM_BYTES;
  }

  /** The block whose right header stands here and which ends within the file; null if damaged. */
  static @Nullable Block decode(byte[] file, int header) {
    int stored = at(file, header, 4);
    int body = header + HEADER_BYTES;
    if (at(file, body + stored, 0) != checksum(file, body, stored)) {
      return null;
    }
    int plain = at(file, header, 8);
    int flags = file[header + 18];
    byte[] bytes = Arrays.copyOfRange(file, body, body + stored);
    byte[] items = (flags & DEFLATED) == 0 ? bytes : inflate(bytes, plain);
    int frames = at(file, header, 16) & 0xFFFF;
    return items == null ? null : split(file, header, items, frames);
  }

  private static @Nullable Block split(byte[] file, int header, byte[] body, int frames) {
    if (frames < 1 || frames > MAX_FRAMES) {
      return null;
    }
    byte[][] items = new byte[frames][];
    int at = 0;
    for (int i = 0; i < frames; i++) {
      if (at + 2 > body.length) {
        return null;
      }
      int length = (body[at] & 0xFF) | (body[at + 1] & 0xFF) << 8;
      at += 2;
      if (at + length > body.length) {
        return null;
      }
      items[i] = Arrays.copyOfRange(body, at, at + length);
      at += length;
    }
    long boot = at(file, header, 20) & 0xFFFF_FFFFL | (long) at(file, header, 24) << 32;
    long first = Integer.toUnsignedLong(at(file, header, 12));
    if (boot <= 0 || first + frames > DataFrame.MAX_SEQUENCE + 1) {
      return null; // no agent's: what is handed over could not be sent
    }
    return new Block(boot, first, (file[header + 18] & BEGINS) != 0, List.of(items));
  }

  private static byte[] deflate(byte[] body) {
    Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
    try {
      deflater.setInput(body);
      deflater.finish();
      byte[] out = new byte[body.length]; // where that is too little, it is not smaller
      int length = deflater.deflate(out);
      return deflater.finished() ? Arrays.copyOf(out, length) : body;
    } finally {
      deflater.end();
    }
  }

  private static byte @Nullable [] inflate(byte[] stored, int plain) {
    if (plain < 0 || plain > MAX_BODY_BYTES) {
      return null;
    }
    Inflater inflater = new Inflater(true);
    try {
      inflater.setInput(stored);
      byte[] out = new byte[plain];
      return inflater.inflate(out) == plain ? out : null;
    } catch (DataFormatException e) {
      return null;
    } finally {
      inflater.end();
    }
  }

  private static int at(byte[] file, int header, int offset) {
    int at = header + offset;
    return (file[at] & 0xFF)
        | (file[at + 1] & 0xFF) << 8
        | (file[at + 2] & 0xFF) << 16
        | (file[at + 3] & 0xFF) << 24;
  }

  static int checksum(byte[] bytes, int from, int length) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, from, length);
    return (int) crc.getValue();
  }
}
