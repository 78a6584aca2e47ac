package bellwire.app.job;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;

/**
 * Vigils of sixteen conductors as long as a test likes, put into a job file as runs of like
 * readings, so that a day takes seconds.
 */
public final class InventedVigils {
  public static final int CONDUCTORS = 16;
  private static final long TICK = 1000;
  private static final long HOUR = 3_600_000_000L;
  private static final String[] COLOURS = {
    "red", "white", "green", "yellow", "blue", "brown", "orange", "black"
  };

  private InventedVigils() {}

  /** What was put in. */
  public record Day(Path job, long vigil, long lengthMicros, long events, long startUnixMicros) {}

  private static Watched asked(String program, double hours) {
    Map<Integer, String> names = new HashMap<>();
    for (int i = 0; i < CONDUCTORS; i++) {
      names.put(i, COLOURS[i % COLOURS.length] + (i < COLOURS.length ? "" : "/white"));
    }
    return new Watched(
        (1L << 40) + 7,
        program,
        (1 << CONDUCTORS) - 1,
        0,
        true,
        0,
        Math.round(hours * HOUR),
        "A",
        "",
        20,
        0,
        60,
        names);
  }

  /** Openings at random, a conductor that chatters for a while, two gaps, notes. */
  public static Day continuity(JobFile job, Path file, double hours, long seed) throws Exception {
    long start = 1_790_000_000_000_000L;
    VigilStore store = job.startVigil(asked("continuity", hours), start, 0, System::nanoTime);
    Stream stream = store.addWords("ports", TICK);
    Random random = new Random(seed);
    long length = Math.round(hours * HOUR);
    long at = 0;
    long events = 0;
    boolean away = false;
    while (at < length) {
      boolean chatters = at > length / 2 && at < length / 2 + length / 50;
      long quiet = chatters ? 300 : 20 + (long) (-Math.log1p(-random.nextDouble()) * 220_000);
      at = run(store, stream, at, quiet, 0, 0);
      if (!away && at > length / 3) {
        away = true;
        at += length / 40;
      }
      int port = chatters ? 4 : 1 + random.nextInt(CONDUCTORS - 1);
      boolean brief = random.nextInt(3) == 0;
      long first = at;
      long ticks = brief ? 1 : 1 + (long) (-Math.log1p(-random.nextDouble()) * 400);
      at = run(store, stream, at, ticks, brief ? 0 : 1 << port, 1 << port);
      store.event(
          new VigilEvent(port, 0, first - TICK, first, at - TICK, at, 1, brief, false, false));
      events++;
      if (random.nextInt(40) == 0) {
        store.mark(new Mark(at, random.nextBoolean() ? "shook the cable" : "fan came on"));
      }
    }
    store.ended(at, "its time was over");
    store.close();
    return new Day(file, store.vigil(), length, events, start);
  }

  /** Dry contacts of a control that calls now and then. */
  public static Day calls(JobFile job, Path file, double hours, long seed) throws Exception {
    long start = 1_790_000_000_000_000L;
    VigilStore store = job.startVigil(asked("calls", hours), start, 0, System::nanoTime);
    Stream stream = store.addWords("leads", TICK);
    Random random = new Random(seed);
    long length = Math.round(hours * HOUR);
    long at = 0;
    int word = 0;
    long changes = 0;
    while (at < length) {
      at = run(store, stream, at, 1000 + (long) (random.nextDouble() * 120_000), word, 0);
      word ^= 1 << random.nextInt(CONDUCTORS);
      changes++;
    }
    store.ended(at, "its time was over");
    store.close();
    return new Day(file, store.vigil(), length, changes, start);
  }

  private static long run(VigilStore store, Stream stream, long at, long ticks, int word, int latch)
      throws JobFileException {
    long left = ticks;
    long from = at;
    int latched = latch;
    while (left > 0) {
      int now = (int) Math.min(left, 100_000);
      store.appendTicks(stream, from, now, word, latched);
      latched = 0;
      from += now * TICK;
      left -= now;
      store.commitIfDue();
    }
    return from;
  }
}
