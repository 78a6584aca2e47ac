package bellwire.app.job;

import java.util.Arrays;

/** Reads what a {@link ByteSink} wrote, within bounds. */
final class ByteSource {
  private final byte[] bytes;
  private int next;

  ByteSource(byte[] bytes) {
    this.bytes = bytes;
  }

  boolean atEnd() {
    return next == bytes.length;
  }

  int octet() throws Damage {
    if (atEnd()) {
      throw new Damage("ends early: length=" + bytes.length);
    }
    return bytes[next++] & 0xFF;
  }

  long number() throws Damage {
    long value = 0;
    for (int shift = 0; shift < 64; shift += 7) {
      int octet = octet();
      value |= (octet & 0x7FL) << shift;
      if (octet < 0x80) {
        return value;
      }
    }
    throw new Damage("a number has no end: at=" + next);
  }

  long signed() throws Damage {
    long value = number();
    return value >>> 1 ^ -(value & 1);
  }

  /** A count or length of 0 to a most. */
  int count(int most) throws Damage {
    long value = number();
    if (value < 0 || value > most) {
      throw new Damage("a count is out of bounds: count=" + value);
    }
    return (int) value;
  }

  /** All of them, to be read from where {@link #pass} says. */
  byte[] array() {
    return bytes;
  }

  /** Goes on behind so many bytes, and says where they begin. */
  int pass(int length) throws Damage {
    if (length > bytes.length - next) {
      throw new Damage("ends early: length=" + bytes.length);
    }
    next += length;
    return next - length;
  }

  byte[] bytes(int length) throws Damage {
    int begin = pass(length);
    return Arrays.copyOfRange(bytes, begin, begin + length);
  }
}
