package bellwire.app.job;

/**
 * Many numbers of about the same length, none negative: their lowest bits packed, for noise cannot
 * be compressed, and what is above these in planes of bytes. So the lowest plane has few different
 * bytes, and those above it are nearly all zeros.
 */
final class Planes {
  /** Bits of a number of the usual length that its plane of bytes keeps. */
  private static final int USUAL_BITS = 3;

  private static final int MOST_PACKED_BITS = 24;

  private Planes() {}

  /** Bits to be packed, planes, the planes from the highest, the packed bits, low ones first. */
  static void write(ByteSink sink, long[] numbers) {
    int packedBits = packedBits(numbers);
    long all = 0;
    for (long number : numbers) {
      all |= number;
    }
    int planes = (Long.SIZE - Long.numberOfLeadingZeros(all >>> packedBits) + 7) / 8;
    sink.octet(packedBits);
    sink.octet(planes);
    for (int plane = planes - 1; plane >= 0; plane--) {
      sink.cut();
      for (long number : numbers) {
        sink.octet((int) (number >>> (packedBits + 8 * plane)) & 0xFF);
      }
    }
    sink.cut();
    pack(sink, numbers, packedBits);
    sink.cut();
  }

  private static int packedBits(long[] numbers) {
    long bits = 0;
    for (long number : numbers) {
      bits += Long.SIZE - Long.numberOfLeadingZeros(number);
    }
    long usual = numbers.length == 0 ? 0 : bits / numbers.length;
    return (int) Math.max(0, Math.min(MOST_PACKED_BITS, usual - USUAL_BITS));
  }

  private static void pack(ByteSink sink, long[] numbers, int packedBits) {
    long mask = (1L << packedBits) - 1;
    long held = 0;
    int have = 0;
    for (long number : numbers) {
      held |= (number & mask) << have;
      for (have += packedBits; have >= 8; have -= 8) {
        sink.octet((int) held & 0xFF);
        held >>>= 8;
      }
    }
    if (have > 0) {
      sink.octet((int) held);
    }
  }

  static long[] read(ByteSource source, int count) throws Damage {
    int packedBits = source.count(MOST_PACKED_BITS);
    int planes = source.count(Long.BYTES);
    long[] numbers = new long[count];
    byte[] bytes = source.array();
    for (int plane = 0; plane < planes; plane++) {
      int at = source.pass(count);
      for (int i = 0; i < count; i++) {
        numbers[i] = numbers[i] << 8 | (bytes[at + i] & 0xFF);
      }
    }
    if (packedBits > 0) {
      unpack(bytes, source.pass((int) (((long) count * packedBits + 7) / 8)), numbers, packedBits);
    }
    return numbers;
  }

  private static void unpack(byte[] bytes, int begin, long[] numbers, int packedBits) {
    long mask = (1L << packedBits) - 1;
    long held = 0;
    int have = 0;
    int at = begin;
    for (int i = 0; i < numbers.length; i++) {
      for (; have < packedBits; have += 8) {
        held |= (bytes[at++] & 0xFFL) << have;
      }
      numbers[i] = numbers[i] << packedBits | held & mask;
      held >>>= packedBits;
      have -= packedBits;
    }
  }
}
