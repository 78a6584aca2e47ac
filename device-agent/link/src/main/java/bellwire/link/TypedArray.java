package bellwire.link;

import bellwire.link.LinkFormatException.Problem;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;

/** The typed arrays that samples travel in: RFC 8746, section 2, all little-endian. */
enum TypedArray {
  UINT8(64, 1),
  UINT16(69, 2),
  UINT32(70, 4),
  UINT64(71, 8),
  SINT32(78, 4);

  private final int tag;
  private final int width;

  TypedArray(int tag, int width) {
    this.tag = tag;
    this.width = width;
  }

  int tag() {
    return tag;
  }

  byte[] pack(String name, long[] values) {
    ByteBuffer out = ByteBuffer.allocate(values.length * width).order(ByteOrder.LITTLE_ENDIAN);
    for (long value : values) {
      if (value < least() || value > greatest()) {
        throw new IllegalArgumentException(name + "=" + value + " does not fit " + this);
      }
      switch (width) {
        case 1 -> out.put((byte) value);
        case 2 -> out.putShort((short) value);
        case 4 -> out.putInt((int) value);
        default -> out.putLong(value);
      }
    }
    return out.array();
  }

  long[] unpack(String name, CborItem item, int limit) throws LinkFormatException {
    if (!(item instanceof CborItem.Bytes bytes)
        || bytes.tag() != tag
        || bytes.value().length % width != 0) {
      throw new LinkFormatException(
          Problem.SHAPE, "array of another kind: field=" + name + " expected tag=" + tag);
    }
    int length = bytes.value().length / width;
    if (length > limit) {
      throw new LinkFormatException(
          Problem.RANGE, "array too long: field=" + name + " length=" + length);
    }
    ByteBuffer in = ByteBuffer.wrap(bytes.value()).order(ByteOrder.LITTLE_ENDIAN);
    long[] values = new long[length];
    // The kind is looked at once, not for each value.
    switch (this) {
      case UINT8 -> Arrays.setAll(values, i -> in.get(i) & 0xFF);
      case UINT16 -> Arrays.setAll(values, i -> in.getShort(2 * i) & 0xFFFF);
      case UINT32 -> Arrays.setAll(values, i -> in.getInt(4 * i) & 0xFFFF_FFFFL);
      case SINT32 -> Arrays.setAll(values, i -> in.getInt(4 * i));
      case UINT64 -> in.asLongBuffer().get(values);
    }
    return values;
  }

  /** UINT64 carries all 64 bits of a long as they are. */
  private long least() {
    return this == UINT64 ? Long.MIN_VALUE : this == SINT32 ? Integer.MIN_VALUE : 0;
  }

  private long greatest() {
    return this == UINT64
        ? Long.MAX_VALUE
        : this == SINT32 ? Integer.MAX_VALUE : (1L << (8 * width)) - 1;
  }
}
