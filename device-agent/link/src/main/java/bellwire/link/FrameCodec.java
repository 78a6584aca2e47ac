package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import java.util.Arrays;
import java.util.zip.CRC32C;

/**
 * One item in one frame.
 *
 * <pre>
 *  COBS( | CBOR item, 1 to 65000 bytes | CRC-32C of the item, low byte first, 4 bytes | )  0x00
 * </pre>
 *
 * The checksum is CRC-32C (Castagnoli) as in RFC 3720, appendix B.4.
 */
public final class FrameCodec {
  /** Largest frame on the wire, delimiter included; a longer run of bytes is no frame. */
  public static final int MAX_FRAME_BYTES = 65_536;

  public static final int MAX_ITEM_BYTES = 65_000;
  public static final byte DELIMITER = 0;
  private static final int CHECKSUM_BYTES = 4;

  private FrameCodec() {}

  /** The frame with its delimiter. */
  public static byte[] encode(byte[] item) {
    if (item.length == 0 || item.length > MAX_ITEM_BYTES) {
      throw new IllegalArgumentException("item length=" + item.length + " limit=" + MAX_ITEM_BYTES);
    }
    byte[] raw = Arrays.copyOf(item, item.length + CHECKSUM_BYTES);
    int checksum = checksum(item, item.length);
    for (int i = 0; i < CHECKSUM_BYTES; i++) {
      raw[item.length + i] = (byte) (checksum >>> (8 * i));
    }
    byte[] stuffed = Cobs.encode(raw);
    return Arrays.copyOf(stuffed, stuffed.length + 1);
  }

  /** The item in a frame of {@code len} bytes, delimiter not included. */
  public static byte[] decode(byte[] frame, int off, int len) throws LinkFormatException {
    if (len >= MAX_FRAME_BYTES) {
      throw new LinkFormatException(Problem.SIZE, "frame too long: length=" + len);
    }
    byte[] raw = Cobs.decode(frame, off, len);
    int length = raw.length - CHECKSUM_BYTES;
    if (length < 1 || length > MAX_ITEM_BYTES) {
      throw new LinkFormatException(Problem.SIZE, "frame holds no item: length=" + raw.length);
    }
    int expected = 0;
    for (int i = 0; i < CHECKSUM_BYTES; i++) {
      expected |= (raw[length + i] & 0xFF) << (8 * i);
    }
    int found = checksum(raw, length);
    if (found != expected) {
      throw new LinkFormatException(
          Problem.CHECKSUM,
          "frame damaged on the line: checksum="
              + Integer.toHexString(found)
              + " expected="
              + Integer.toHexString(expected));
    }
    return Arrays.copyOf(raw, length);
  }

  private static int checksum(byte[] bytes, int length) {
    CRC32C crc = new CRC32C();
    crc.update(bytes, 0, length);
    return (int) crc.getValue();
  }
}
