package bellwire.app.job;

import java.util.Arrays;

/**
 * Converter codes with their times. Each is kept as its distance from a smoothed course of those
 * before it, its three bytes in planes of their own: the upper planes are nearly all zeros, the low
 * one is the noise.
 */
final class CodeSpan extends Span {
  private static final int FIRST_ROOM = 16;
  private static final int PLANES = 4;

  private final long periodMicros;
  private final int most;
  private long[] micros = new long[FIRST_ROOM];
  private int[] code = new int[FIRST_ROOM];
  private int count;

  CodeSpan(Stream stream) {
    periodMicros = stream.periodMicros();
    most = (int) (2 * stream.spanMicros() / periodMicros + 2);
  }

  @Override
  boolean isEmpty() {
    return count == 0;
  }

  @Override
  long firstMicros() {
    return micros[0];
  }

  @Override
  long lastMicros() {
    return micros[count - 1];
  }

  @Override
  void add(long firstMicros, int more, int value, int latches, int group) {
    if (count == micros.length) {
      micros = Arrays.copyOf(micros, 2 * count);
      code = Arrays.copyOf(code, 2 * count);
    }
    micros[count] = firstMicros;
    code[count] = value;
    count++;
  }

  @Override
  void forEach(Sink sink) {
    for (int i = 0; i < count; i++) {
      sink.run(micros[i], 1, code[i], 0, 0);
    }
  }

  /** Times less the expected ones, then the residuals' bytes, plane by plane. */
  @Override
  byte[] encoded() {
    ByteSink sink = new ByteSink();
    sink.number(count);
    long expected = 0;
    for (int i = 0; i < count; i++) {
      sink.signed(micros[i] - expected);
      expected = micros[i] + periodMicros;
    }
    int[] folded = new int[count];
    Course course = new Course();
    for (int i = 0; i < count; i++) {
      int residual = code[i] - course.next();
      folded[i] = residual << 1 ^ residual >> 31;
      course.take(code[i]);
    }
    for (int plane = 0; plane < PLANES; plane++) {
      for (int value : folded) {
        sink.octet((value >>> (8 * plane)) & 0xFF);
      }
    }
    return sink.taken();
  }

  @Override
  void decode(ByteSource source) throws Damage {
    int coming = source.count(most);
    long[] times = new long[coming];
    long expected = 0;
    for (int i = 0; i < coming; i++) {
      times[i] = expected + source.signed();
      expected = times[i] + periodMicros;
    }
    int[] folded = new int[coming];
    for (int plane = 0; plane < PLANES; plane++) {
      byte[] octets = source.bytes(coming);
      for (int i = 0; i < coming; i++) {
        folded[i] |= (octets[i] & 0xFF) << (8 * plane);
      }
    }
    Course course = new Course();
    for (int i = 0; i < coming; i++) {
      int value = course.next() + (folded[i] >>> 1 ^ -(folded[i] & 1));
      course.take(value);
      folded[i] = value;
    }
    if (coming > 0) {
      micros = times;
      code = folded;
      count = coming;
    }
  }

  /** Exponential smoothing in whole numbers, so that reading repeats what writing did. */
  private static final class Course {
    private static final int FRACTION_BITS = 8;

    /** An eighth: white noise grows by 3 %, a drift is followed within some ten samples. */
    private static final int SMOOTHING_BITS = 3;

    private long level;
    private boolean started;

    int next() {
      return (int) ((level + (1 << (FRACTION_BITS - 1))) >> FRACTION_BITS);
    }

    void take(int code) {
      long scaled = (long) code << FRACTION_BITS;
      level = started ? level + ((scaled - level) >> SMOOTHING_BITS) : scaled;
      started = true;
    }
  }
}
