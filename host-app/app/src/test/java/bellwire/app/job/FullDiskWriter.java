package bellwire.app.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Fills a small file system with a vigil, says what it is told, makes room and goes on; then counts
 * what is there.
 */
final class FullDiskWriter {
  private static final long TICK_MICROS = 1000;
  private static final int BALLAST_BYTES = 400_000;
  private static final int FEWEST_AFTER = 50_000;

  private FullDiskWriter() {}

  public static void main(String[] arguments) throws Exception {
    Path directory = Path.of(arguments[0]);
    Path ballast = Files.write(directory.resolve("ballast"), new byte[BALLAST_BYTES]);
    Path file = directory.resolve("job.bellwire");
    long[] tick = new long[1];
    try (JobFile job = JobFile.open(file)) {
      VigilStore store =
          job.startVigil(Asked.vigil("trend"), 0, 0, () -> tick[0] * TICK_MICROS * 1000);
      Stream p1 = store.addCodes("P1", TICK_MICROS);
      try {
        while (true) {
          append(store, p1, tick);
        }
      } catch (IOException e) {
        System.out.println("told: " + e.getMessage());
      }
      System.out.println("free: " + Files.getFileStore(directory).getUsableSpace());
      compare("acknowledged", (store.storedBefore(p1) - 1) / TICK_MICROS + 1, readBack(file, p1));
      Files.delete(ballast);
      for (long end = tick[0] + FEWEST_AFTER; tick[0] < end; ) {
        append(store, p1, tick);
      }
      store.close();
      compare("at the end", tick[0], readBack(file, p1));
    }
  }

  private static void append(VigilStore store, Stream stream, long[] tick) throws JobFileException {
    store.appendCode(stream, tick[0] * TICK_MICROS, code(tick[0]));
    tick[0]++;
  }

  private static int code(long tick) {
    return (int) (tick * 0x9E3779B97F4A7C15L >>> 50);
  }

  /** Samples from the first on without a gap, each as it was written. */
  private static long readBack(Path file, Stream stream) throws JobFileException {
    long[] next = new long[1];
    try (VigilReader reader = VigilReader.open(file, 1)) {
      reader.samples(
          stream,
          0,
          Long.MAX_VALUE,
          (first, count, value, latches) -> {
            boolean same = first == next[0] * TICK_MICROS && value == code(next[0]);
            next[0] += same ? 1 : 0;
          });
    }
    return next[0];
  }

  private static void compare(String when, long expected, long found) {
    System.out.println(when + ": " + expected + " in the file: " + found);
    if (found != expected || expected == 0) {
      System.exit(1);
    }
  }
}
