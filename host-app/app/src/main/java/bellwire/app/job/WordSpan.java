package bellwire.app.job;

import java.util.Arrays;

/** Runs of like words: while nothing changes, one run, however long. */
final class WordSpan extends Span {
  private static final int FIRST_ROOM = 16;

  private final long periodMicros;
  private final int most;
  private final int codes;
  private long[] first = new long[FIRST_ROOM];
  private int[] count = new int[FIRST_ROOM];
  private int[] word = new int[FIRST_ROOM];
  private int[] latched = new int[FIRST_ROOM];
  private int[] code = new int[FIRST_ROOM];
  private int runs;

  WordSpan(Stream stream) {
    periodMicros = stream.periodMicros();
    codes = stream.codes();
    // Samples come no closer than half a period.
    most = (int) (2 * stream.spanMicros() / periodMicros + 2);
  }

  @Override
  boolean isEmpty() {
    return runs == 0;
  }

  @Override
  long firstMicros() {
    return first[0];
  }

  @Override
  long lastMicros() {
    return first[runs - 1] + (count[runs - 1] - 1) * periodMicros;
  }

  @Override
  void add(long firstMicros, int more, int value, int latches, int group) {
    int last = runs - 1;
    if (runs > 0
        && value == word[last]
        && latches == latched[last]
        && group == next(last)
        && firstMicros == lastMicros() + periodMicros) {
      count[last] += more;
      return;
    }
    if (runs == first.length) {
      int room = 2 * runs;
      first = Arrays.copyOf(first, room);
      count = Arrays.copyOf(count, room);
      word = Arrays.copyOf(word, room);
      latched = Arrays.copyOf(latched, room);
      code = Arrays.copyOf(code, room);
    }
    first[runs] = firstMicros;
    count[runs] = more;
    word[runs] = value;
    latched[runs] = latches;
    code[runs] = group;
    runs++;
  }

  /** The code behind a run. */
  private int next(int run) {
    return (int) ((code[run] + (long) count[run]) % codes);
  }

  @Override
  void forEach(Sink sink) {
    for (int i = 0; i < runs; i++) {
      sink.run(first[i], count[i], word[i], latched[i], code[i]);
    }
  }

  @Override
  void fill(Columns columns) {
    for (int i = 0; i < runs; i++) {
      long last = first[i] + (count[i] - 1) * periodMicros;
      columns.merge(first[i], last, word[i], word[i], latched[i]);
    }
  }

  /** Runs: start less the expected one, count, changed bits, latches, code less the expected. */
  @Override
  ByteSink encoded() {
    ByteSink sink = new ByteSink();
    sink.number(runs);
    long expected = 0;
    int before = 0;
    for (int i = 0; i < runs; i++) {
      sink.signed(first[i] - expected);
      sink.number(count[i]);
      sink.number((word[i] ^ before) & 0xFFFFFFFFL);
      sink.number(latched[i] & 0xFFFFFFFFL);
      if (codes > 1) {
        sink.number(Math.floorMod(code[i] - (i == 0 ? 0 : next(i - 1)), codes));
      }
      expected = first[i] + count[i] * periodMicros;
      before = word[i];
    }
    return sink;
  }

  @Override
  void decode(ByteSource source) throws Damage {
    int coming = source.count(most);
    long expected = 0;
    int before = 0;
    long last = -MOST_MICROS;
    for (int i = 0; i < coming; i++) {
      long start = expected + source.signed();
      checkTime(start, last);
      int ticks = source.count(most);
      if (ticks < 1) {
        throw new Damage("a run without a sample: at=" + start);
      }
      before ^= (int) source.number();
      int latches = (int) source.number();
      add(start, ticks, before, latches, codes > 1 ? code(source) : 0);
      expected = start + ticks * periodMicros;
      last = expected - periodMicros;
    }
  }

  private int code(ByteSource source) throws Damage {
    int expected = runs == 0 ? 0 : next(runs - 1);
    return (expected + source.count(codes - 1)) % codes;
  }
}
