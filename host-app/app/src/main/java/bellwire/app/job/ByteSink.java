package bellwire.app.job;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;

/** Numbers as bytes: seven bits a byte, low ones first, the top bit where more follow (LEB128). */
final class ByteSink {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final List<Integer> cuts = new ArrayList<>();

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

  /** What follows is of another sort: compressed apart, it takes less. The bytes don't show it. */
  void cut() {
    cuts.add(out.size());
  }

  /** Where it was cut, rising. */
  List<Integer> cuts() {
    return cuts;
  }

  byte[] taken() {
    return out.toByteArray();
  }
}
