package bellwire.app.job;

import java.util.Arrays;

/**
 * Converter codes with their times. Each is kept as its distance from a smoothed course of those
 * before it, which is the noise.
 */
final class CodeSpan extends Span {
  private static final int FIRST_ROOM = 16;
  private static final int OLDER_PLANES = 4;

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

  @Override
  void fill(Columns columns) {
    columns.merge(micros, code, count);
  }

  /** Zero, where an older one has its count; then times less the expected ones, and codes. */
  @Override
  ByteSink encoded() {
    ByteSink sink = new ByteSink();
    sink.number(0);
    sink.number(count);
    sink.signed(count == 0 ? 0 : micros[0]);
    long[] late = new long[count];
    long[] folded = new long[count];
    Course course = new Course();
    for (int i = 0; i < count; i++) {
      long distance = i == 0 ? 0 : micros[i] - micros[i - 1] - periodMicros;
      late[i] = distance << 1 ^ distance >> 63;
      folded[i] = course.folded(code[i]) & 0xFFFFFFFFL;
    }
    Planes.write(sink, late);
    Planes.write(sink, folded);
    return sink;
  }

  @Override
  void decode(ByteSource source) throws Damage {
    int coming = source.count(most);
    if (coming > 0) {
      decodeOlder(source, coming);
      return;
    }
    coming = source.count(most);
    long expected = source.signed();
    long[] times = Planes.read(source, coming);
    long[] folded = Planes.read(source, coming);
    for (int i = 0; i < coming; i++) {
      expected += times[i] >>> 1 ^ -(times[i] & 1);
      times[i] = expected;
      expected += periodMicros;
    }
    take(times, Course.values(folded, 0, coming));
  }

  /** Of version 1: each time as a number, and four planes of whole bytes. */
  private void decodeOlder(ByteSource source, int coming) throws Damage {
    long[] times = new long[coming];
    long expected = 0;
    for (int i = 0; i < coming; i++) {
      times[i] = expected + source.signed();
      expected = times[i] + periodMicros;
    }
    long[] folded = new long[coming];
    for (int plane = 0; plane < OLDER_PLANES; plane++) {
      byte[] octets = source.bytes(coming);
      for (int i = 0; i < coming; i++) {
        folded[i] |= (octets[i] & 0xFFL) << (8 * plane);
      }
    }
    take(times, Course.values(folded, 0, coming));
  }

  private void take(long[] times, int[] values) throws Damage {
    for (int i = 0; i < times.length; i++) {
      checkTime(times[i], i == 0 ? -MOST_MICROS : times[i - 1]);
    }
    if (times.length > 0) {
      micros = times;
      code = values;
      count = times.length;
    }
  }
}
