package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Sizes beside plain CSV and a row a sample, and times, printed. Sizes are asserted always; times
 * only for whole days, where they mean something.
 */
class VigilFiguresTest {
  private static final double HOURS =
      Double.parseDouble(System.getProperty("bellwire.hours", "0.1"));
  private static final long SEED = Long.getLong("bellwire.seed", 6);
  private static final boolean DAY = HOURS >= 24;

  /** Samples of the tables beside, which grow in proportion. */
  private static final int ROWS_BESIDE = 200_000;

  /** A vigil's openings in 24 h where all is nearly well, and a conductor that chatters. */
  private static final double FEW_PER_HOUR = 300 / 24.0 / VigilFeed.CONDUCTORS;

  private static final double MANY_PER_HOUR = 3600;

  @TempDir Path directory;

  private record Fed(
      Path file, long vigil, long samples, double seconds, long heapEarly, long heapLate) {}

  @Test
  void bitsTakeAFiftiethOfCsv() throws Exception {
    System.out.printf("VigilFiguresTest: seed=%d hours=%.2f%n", SEED, HOURS);
    System.out.println(
        "bits, 16 conductors at 1 kHz: bytes per conductor-hour | file | CSV a line a tick |"
            + " CSV / file | SQLite a row a tick");
    String[] names = {"none opens", "300 openings in 24 h", "each opens once a second"};
    double[] perHour = {0, FEW_PER_HOUR, MANY_PER_HOUR};
    for (int i = 0; i < names.length; i++) {
      Fed fed = feedWords(names[i], perHour[i]);
      double csv = csvBytes(fed);
      double file = Files.size(fed.file);
      double conductorHours = HOURS * VigilFeed.CONDUCTORS;
      System.out.printf(
          "%s | %.0f | %.0f | %.0f | %.0f%n",
          names[i],
          file / conductorHours,
          csv / conductorHours,
          csv / file,
          rowBytes(true) * fed.samples / conductorHours);
      assertThat(csv / file).as(names[i]).isGreaterThan(50);
      tellTimes(fed, i > 0);
    }
  }

  @Test
  void converterSamplesTakeLittleMoreThanTheirNoise() throws Exception {
    System.out.println(
        "converter samples: rate, noise | bytes a sample: file | of its noise alone | CSV |"
            + " SQLite a row a sample");
    // Noise by the board's figures (hardware-notes) at gain 128, a code 2.3 nV.
    int[] perSecond = {20, 100};
    double[] noiseCodes = {27, 59};
    for (int i = 0; i < perSecond.length; i++) {
      Fed fed = feedCodes(perSecond[i], noiseCodes[i]);
      double each = (double) Files.size(fed.file) / fed.samples;
      double entropyBits = Math.log(noiseCodes[i] * Math.sqrt(2 * Math.PI * Math.E)) / Math.log(2);
      System.out.printf(
          "%d/s, %.0f codes rms | %.3f | %.3f | %.1f | %.1f%n",
          perSecond[i],
          noiseCodes[i],
          each,
          entropyBits / 8,
          csvBytes(fed) / fed.samples,
          rowBytes(false));
      tellTimes(fed, true);
      if (fed.samples > 100_000) {
        // A file of a few kilobytes is mostly its empty tables.
        assertThat(each).isLessThan(1.2);
      }
    }
  }

  private Fed feedWords(String name, double openingsPerHour) throws Exception {
    Path file = directory.resolve(name.replace(' ', '-') + ".bellwire");
    long begin = System.nanoTime();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, System::nanoTime);
      Stream ports = store.addWords("ports", VigilFeed.TICK_MICROS);
      Random random = new Random(SEED);
      // The first hour of the day, then all of it; its samples are passed over the second time.
      VigilFeed.words(store, ports, HOURS / 24, openingsPerHour, 5, new Random(SEED));
      long early = usedHeap();
      VigilFeed.words(store, ports, HOURS, openingsPerHour, 5, random);
      long late = usedHeap();
      store.close();
      double seconds = (System.nanoTime() - begin) * 1e-9;
      return new Fed(file, store.vigil(), Math.round(HOURS * 3_600_000), seconds, early, late);
    }
  }

  private Fed feedCodes(int perSecond, double noiseCodes) throws Exception {
    Path file = directory.resolve("codes-" + perSecond + ".bellwire");
    long begin = System.nanoTime();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("trend"), 0, 0, System::nanoTime);
      Stream[] streams = new Stream[VigilFeed.CONDUCTORS];
      for (int i = 0; i < streams.length; i++) {
        streams[i] = store.addCodes("P" + (i + 1), 1_000_000L * VigilFeed.CONDUCTORS / perSecond);
      }
      VigilFeed.codes(store, streams, HOURS / 24, perSecond, noiseCodes, new Random(SEED));
      long early = usedHeap();
      Random random = new Random(SEED);
      long samples = VigilFeed.codes(store, streams, HOURS, perSecond, noiseCodes, random);
      long late = usedHeap();
      store.close();
      double seconds = (System.nanoTime() - begin) * 1e-9;
      return new Fed(file, store.vigil(), samples, seconds, early, late);
    }
  }

  private static long usedHeap() {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }

  private void tellTimes(Fed fed, boolean held) throws Exception {
    double speed = HOURS * 3600 / fed.seconds;
    long to = Math.round(HOURS * 3_600e6);
    String overviews = "";
    double slowest = 0;
    double loading = 0;
    for (double share :
        DAY ? new double[] {1, 0.75, 0.5, 0.2, 0.1, 0.05, 0.02, 0.005, 1e-4} : new double[] {1}) {
      long from = Math.round(to * (1 - share) / 2);
      double[] millis = coldMillis(fed, from, from + Math.round(to * share));
      for (int again = 1; again < (DAY ? 3 : 1); again++) {
        // The least: other programs share the processor.
        double[] other = coldMillis(fed, from, from + Math.round(to * share));
        millis = other[0] < millis[0] ? other : millis;
      }
      overviews += String.format(" %.0f", millis[0]);
      slowest = Math.max(slowest, millis[0]);
      loading = Math.max(loading, millis[1]);
    }
    System.out.printf(
        "   taken in at %.0f times real time; heap after 1/24 %d kB, at the end %d kB; cold overview"
            + " in 1000 columns a stream of all, 1/10, 1/100, 1/10000:%s ms, the library %.0f%n",
        speed, fed.heapEarly / 1024, fed.heapLate / 1024, overviews, loading);
    if (DAY && held) {
      assertThat(speed).isGreaterThan(1000);
      assertThat(slowest).isLessThan(150);
    }
  }

  /** In a process of its own, the file's pages dropped from the system's cache where dd can. */
  private static double[] coldMillis(Fed fed, long from, long to) throws Exception {
    new ProcessBuilder("dd", "if=" + fed.file, "iflag=nocache", "count=0")
        .redirectErrorStream(true)
        .start()
        .waitFor(10, TimeUnit.SECONDS);
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty(
                    "surefire.test.class.path", System.getProperty("java.class.path")),
                ColdOverview.class.getName(),
                fed.file.toString(),
                Long.toString(fed.vigil),
                Long.toString(from),
                Long.toString(to))
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    String[] millis = said.strip().split(" ", -1);
    return new double[] {Double.parseDouble(millis[0]), Double.parseDouble(millis[1])};
  }

  private static double csvBytes(Fed fed) throws IOException {
    long[] bytes = new long[1];
    try (VigilReader reader = VigilReader.open(fed.file, fed.vigil)) {
      for (Stream stream : reader.streams()) {
        reader.samples(
            stream,
            0,
            Long.MAX_VALUE,
            (first, count, value, latches) -> {
              // Time, comma, word, comma, latches, end of line; or time, comma, code, end of line.
              boolean words = stream.kind() == Stream.Kind.WORDS;
              int rest = words ? 2 + hexDigits(value) + hexDigits(latches) : 1 + digits(value);
              for (int i = 0; i < count; i++) {
                bytes[0] += digits(first + i * stream.periodMicros()) + rest + 1;
              }
            });
      }
    }
    return bytes[0];
  }

  private static int digits(long value) {
    int digits = value < 0 ? 2 : 1;
    for (long rest = Math.abs(value); rest >= 10; rest /= 10) {
      digits++;
    }
    return digits;
  }

  private static int hexDigits(int value) {
    return Math.max(1, (35 - Integer.numberOfLeadingZeros(value)) / 4);
  }

  /** Bytes a row: time as the key, then word and latches, or conductor and code. */
  private double rowBytes(boolean words) throws Exception {
    Path file = directory.resolve("rows-" + words + ".db");
    Files.deleteIfExists(file);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE sample (micros INTEGER PRIMARY KEY, a INTEGER, b INTEGER)");
      connection.setAutoCommit(false);
      try (PreparedStatement insert =
          connection.prepareStatement("INSERT INTO sample VALUES (?, ?, ?)")) {
        for (int i = 0; i < ROWS_BESIDE; i++) {
          insert.setLong(1, i * (words ? 1_000L : 10_000L));
          insert.setInt(2, words ? 0xFFFF : i % VigilFeed.CONDUCTORS);
          insert.setInt(3, words ? 0 : 400_000 + i % 100);
          insert.addBatch();
        }
        insert.executeBatch();
      }
      connection.commit();
    }
    return (double) Files.size(file) / ROWS_BESIDE;
  }
}
