package bellwire.link;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A reader of its own for the part of RFC 8949 that messages use, so that the codec is not checked
 * by itself. Numbers come out as Long, text as String, arrays as List, tagged bytes as Tagged.
 */
final class PlainCbor {
  record Tagged(long tag, byte[] bytes) {}

  private final byte[] bytes;
  private int at;

  private PlainCbor(byte[] bytes) {
    this.bytes = bytes;
  }

  static Object read(byte[] bytes) {
    PlainCbor reader = new PlainCbor(bytes);
    Object item = reader.item();
    if (reader.at != bytes.length) {
      throw new AssertionError("bytes left: " + (bytes.length - reader.at));
    }
    return item;
  }

  private Object item() {
    int initial = bytes[at++] & 0xFF;
    int major = initial >> 5;
    if (initial == 0xF4 || initial == 0xF5) {
      return initial == 0xF5;
    }
    long argument = argument(initial & 31);
    return switch (major) {
      case 0 -> argument;
      case 1 -> -1 - argument;
      case 3 -> new String(take((int) argument), StandardCharsets.UTF_8);
      case 4 -> {
        List<Object> items = new ArrayList<>();
        for (long i = 0; i < argument; i++) {
          items.add(item());
        }
        yield items;
      }
      case 6 -> {
        int inner = bytes[at++] & 0xFF;
        if (inner >> 5 != 2) {
          throw new AssertionError("tag on no byte string: " + argument);
        }
        yield new Tagged(argument, take((int) argument(inner & 31)));
      }
      default -> throw new AssertionError("major type " + major);
    };
  }

  /** The argument, which must be in its shortest form (section 4.2.1). */
  private long argument(int low) {
    if (low < 24) {
      return low;
    }
    int width = 1 << (low - 24);
    long value = 0;
    for (int i = 0; i < width; i++) {
      value = value << 8 | bytes[at++] & 0xFF;
    }
    long least = width == 1 ? 24 : 1L << (4 * width);
    if (low > 27 || value < least && value >= 0) {
      throw new AssertionError("not the shortest form: low=" + low + " value=" + value);
    }
    return value;
  }

  private byte[] take(int length) {
    byte[] part = Arrays.copyOfRange(bytes, at, at + length);
    at += length;
    return part;
  }
}
