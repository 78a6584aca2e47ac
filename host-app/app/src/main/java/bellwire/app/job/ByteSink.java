package bellwire.app.job;

import java.io.ByteArrayOutputStream;

/** Numbers as bytes: seven bits a byte, low ones first, the top bit where more follow (LEB128). */
final class ByteSink {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();

  void octet(int value) {
    out.write(value);
  }

  void number(long value) {
    long rest = value;
    while ((rest & ~0x7FL) != 0) {
      out.write((int) ((rest & 0x7F) | 0x80));
      rest >>>= 7;
    }
    out.write((int) rest);
  }

  /** Small where the value is near zero, on either side. */
  void signed(long value) {
    number(value << 1 ^ value >> 63);
  }

  void bytes(byte[] some) {
    out.writeBytes(some);
  }

  byte[] taken() {
    return out.toByteArray();
  }
}
