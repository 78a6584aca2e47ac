package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import java.util.Arrays;

/**
 * Consistent overhead byte stuffing, without zero-pair elimination: S. Cheshire and M. Baker,
 * IEEE/ACM Transactions on Networking 7(2), 1999. The encoded form holds no zero; the delimiter is
 * the caller's.
 */
public final class Cobs {
  private static final int FULL_BLOCK = 0xFF;

  private Cobs() {}

  /** Most bytes that {@code length} raw bytes become: one more for each 254 begun, at least one. */
  public static int maxEncodedLength(int length) {
    return length + length / (FULL_BLOCK - 1) + 1;
  }

  public static byte[] encode(byte[] raw) {
    byte[] out = new byte[maxEncodedLength(raw.length)];
    int codeAt = 0;
    int at = 1;
    for (int i = 0; i < raw.length; i++) {
      if (raw[i] != 0) {
        out[at++] = raw[i];
      }
      boolean full = at - codeAt == FULL_BLOCK;
      // A full block at the very end needs no further block: none would mean a zero follows.
      if (raw[i] == 0 || (full && i + 1 < raw.length)) {
        out[codeAt] = (byte) (at - codeAt);
        codeAt = at++;
      }
    }
    out[codeAt] = (byte) (at - codeAt);
    return Arrays.copyOf(out, at);
  }

  /**
   * @param encoded holds the encoded bytes, without delimiter, at {@code off} to {@code off + len}
   */
  public static byte[] decode(byte[] encoded, int off, int len) throws LinkFormatException {
    if (len == 0) {
      throw new LinkFormatException(
          Problem.STUFFING, "an empty frame has no first block: length=0");
    }
    byte[] out = new byte[len];
    int size = 0;
    int at = off;
    int end = off + len;
    while (at < end) {
      int code = encoded[at] & 0xFF;
      if (code == 0 || at + code > end) {
        throw new LinkFormatException(
            Problem.STUFFING,
            "frame damaged, a block runs past its end: block=" + code + " left=" + (end - at));
      }
      for (int i = at + 1; i < at + code; i++) {
        if (encoded[i] == 0) {
          throw new LinkFormatException(
              Problem.STUFFING, "frame damaged, a zero inside it: offset=" + (i - off));
        }
      }
      System.arraycopy(encoded, at + 1, out, size, code - 1);
      size += code - 1;
      at += code;
      if (code != FULL_BLOCK && at < end) {
        out[size++] = 0;
      }
    }
    return Arrays.copyOf(out, size);
  }
}
