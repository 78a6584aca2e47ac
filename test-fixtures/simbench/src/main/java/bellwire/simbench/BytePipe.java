package bellwire.simbench;

/**
 * One direction of a serial line: a bounded ring of bytes; what it can't hold is lost, as on a line
 * nobody reads.
 */
final class BytePipe {
  private static final int CAPACITY = 1 << 20;

  private final byte[] ring = new byte[CAPACITY];
  private int start;
  private int size;

  int read(byte[] into) {
    int n = Math.min(size, into.length);
    for (int i = 0; i < n; i++) {
      into[i] = ring[(start + i) & (CAPACITY - 1)];
    }
    start = (start + n) & (CAPACITY - 1);
    size -= n;
    return n;
  }

  void write(byte[] bytes, int off, int len) {
    int n = Math.min(len, CAPACITY - size);
    for (int i = 0; i < n; i++) {
      ring[(start + size + i) & (CAPACITY - 1)] = bytes[off + i];
    }
    size += n;
  }

  void clear() {
    size = 0;
  }
}
