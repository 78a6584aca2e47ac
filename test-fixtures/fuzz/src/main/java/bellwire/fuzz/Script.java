package bellwire.fuzz;

import java.util.Arrays;

/** An input read as a list of deeds; behind its end all is zero. */
final class Script {
  private final byte[] bytes;
  private int at;

  Script(byte[] bytes) {
    this.bytes = bytes;
  }

  boolean atEnd() {
    return at >= bytes.length;
  }

  int octet() {
    return atEnd() ? 0 : bytes[at++] & 0xFF;
  }

  /** Of two bytes, low one first. */
  int pair() {
    return octet() | octet() << 8;
  }

  /** Of eight bytes, low one first. */
  long eight() {
    long value = 0;
    for (int i = 0; i < Long.BYTES; i++) {
      value |= (long) octet() << (8 * i);
    }
    return value;
  }

  /** Small mostly, of any size sometimes; never negative. */
  long number() {
    int first = octet();
    return first < 0xF0 ? first : eight() & Long.MAX_VALUE;
  }

  /** So many, or as many as there are. */
  byte[] bytes(int length) {
    int end = Math.min(bytes.length, at + length);
    byte[] taken = Arrays.copyOfRange(bytes, Math.min(at, bytes.length), Math.max(at, end));
    at = end;
    return taken;
  }
}
