package bellwire.app.job;

import java.nio.file.Path;
import java.util.List;

/** Writes a vigil whose samples follow from their times, as fast as it can, until it is killed. */
final class KilledWriter {
  static final long TICK_MICROS = 1000;
  static final long CODE_TICKS = 10;
  static final int CODE_STREAMS = 3;
  static final long BOOT = 77;

  /** The words, and P1 to P3. */
  static final int STREAMS = 1 + CODE_STREAMS;

  private KilledWriter() {}

  /** In runs of some ticks; most of the time all closed. */
  static int word(long tick) {
    long mixed = mix(tick >> 4);
    return mixed % 8 == 0 ? (int) (mixed >>> 20) & 0xFFFF : 0xFFFF;
  }

  static int latches(long tick) {
    long mixed = mix(~tick);
    return mixed % 512 == 0 ? 1 << (mixed >>> 60) : 0;
  }

  static int code(int stream, long tick) {
    return (int) (mix(stream * 1_000_003L + tick) >>> 56) + 1000 * stream;
  }

  /** SplitMix64's output function. */
  private static long mix(long value) {
    long z = value + 0x9E3779B97F4A7C15L;
    z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
    z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
    return z ^ z >>> 31;
  }

  /** Says 'begun', then after each commit the time before which each stream is acknowledged. */
  public static void main(String[] arguments) throws Exception {
    Path file = Path.of(arguments[0]);
    System.out.println("begun");
    long[] ticks = new long[1];
    try (JobFile job = JobFile.open(file)) {
      VigilStore store;
      if (VigilReader.vigils(file).isEmpty()) {
        store =
            job.startVigil(Asked.vigil("continuity"), 0, 0, () -> ticks[0] * TICK_MICROS * 1000);
      } else {
        store = job.resumeVigil(1, () -> ticks[0] * TICK_MICROS * 1000);
      }
      // Killed between two of these, the one before left the rest to this one.
      if (store.streams().isEmpty()) {
        store.addWords("ports", TICK_MICROS);
      }
      for (int i = store.streams().size(); i < STREAMS; i++) {
        store.addCodes("P" + i, CODE_TICKS * TICK_MICROS);
      }
      write(store, ticks);
    }
  }

  private static void write(VigilStore store, long[] ticks) throws Exception {
    List<Stream> streams = store.streams();
    // As a link does that resends some more than was not acknowledged.
    ticks[0] = Math.max(0, nextSequence(store) - 2 * CODE_TICKS);
    long said = -1;
    while (true) {
      long tick = ticks[0];
      store.appendTicks(streams.get(0), tick * TICK_MICROS, 1, word(tick), latches(tick));
      if (tick % CODE_TICKS == 0) {
        for (int i = 1; i < STREAMS; i++) {
          store.appendCode(streams.get(i), tick * TICK_MICROS, code(i, tick));
        }
      }
      ticks[0] = tick + 1;
      // A frame of the agent's each tick, told when its samples have been appended.
      store.arrived(new Source(BOOT, tick + 1, 0));
      long stored = store.storedBefore(streams.get(0));
      if (stored != said) {
        said = stored;
        StringBuilder line = new StringBuilder("ack");
        for (Stream stream : streams) {
          line.append(' ').append(store.storedBefore(stream));
        }
        System.out.println(line.append(' ').append(nextSequence(store)));
      }
    }
  }

  /** The first frame that is not acknowledged. */
  private static long nextSequence(VigilStore store) {
    return store.source().map(Source::nextSequence).orElse(0L);
  }
}
