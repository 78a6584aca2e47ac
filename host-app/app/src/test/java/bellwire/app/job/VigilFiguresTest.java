package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.export.RowPerSample;
import bellwire.app.export.RowPerSample.Cost;
import bellwire.app.export.RowPerSample.Form;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Sizes and times beside CSV, SQLite and Parquet with a row a sample, printed. Sizes are asserted
 * always; the processor's time, and wall time only beside the others', for whole days, where they
 * mean something.
 */
class VigilFiguresTest {
  private static final double HOURS =
      Double.parseDouble(System.getProperty("bellwire.hours", "0.05"));
  private static final long SEED = Long.getLong("bellwire.seed", 6);
  private static final boolean DAY = HOURS >= 24;

  /** The tables beside hold an hour at most; they grow in proportion. */
  private static final double HOURS_BESIDE = Math.min(HOURS, 1);

  private static final int TRIES = 5;

  /** Shares of the whole; the worst are those just too short for a level of the pyramid. */
  private static final double[] ZOOMS = {0.75, 0.387, 0.2, 0.097, 0.05, 0.0242, 0.005, 1e-4};

  /** A vigil's openings in 24 h where all is nearly well, and a conductor that chatters. */
  private static final double FEW_PER_HOUR = 300 / 24.0 / VigilFeed.CONDUCTORS;

  private static final double MANY_PER_HOUR = 3600;

  @TempDir Path directory;

  private record Fed(
      Path file, long vigil, long samples, Took took, long heapEarly, long heapLate) {}

  /** By the clock, and by the thread's use of the processor. */
  private record Took(double seconds, double processorSeconds) {
    static Took since(Took begin) {
      Took now = now();
      return new Took(now.seconds - begin.seconds, now.processorSeconds - begin.processorSeconds);
    }

    static Took now() {
      long processor = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      return new Took(System.nanoTime() * 1e-9, processor * 1e-9);
    }
  }

  private static final String HEAD =
      "| %s | file | CSV | SQLite | Parquet | whole | any zoom | CSV | SQLite | Parquet |%n"
          + "|---|---|---|---|---|---|---|---|---|---|%n";

  @Test
  void bitsTakeAFiftiethOfCsv() throws Exception {
    System.out.printf(
        "VigilFiguresTest: seed=%d hours=%.2f, %d conductors; CSV, SQLite, Parquet: a row a sample,"
            + " sizes and times in proportion from %.2f h of them; drawn in 1000 columns, without"
            + " loading a library; times in ms by the clock (of the processor)%n",
        SEED, HOURS, VigilFeed.CONDUCTORS, HOURS_BESIDE);
    System.out.printf(HEAD, "bits at 1 kHz, bytes a conductor-hour");
    String[] names = {"none opens", "300 openings in 24 h", "each opens once a second"};
    double[] perHour = {0, FEW_PER_HOUR, MANY_PER_HOUR};
    for (int i = 0; i < names.length; i++) {
      Fed fed = feedWords(names[i], perHour[i]);
      double conductorHours = HOURS * VigilFeed.CONDUCTORS;
      Map<Form, Cost> beside = beside(fed);
      tell(names[i], "%.0f", fed, fed.samples / conductorHours, beside);
      double csv = beside.get(Form.CSV).bytesPerRow() * fed.samples;
      assertThat(csv / Files.size(fed.file)).as(names[i]).isGreaterThan(50);
    }
  }

  @Test
  void converterSamplesTakeLittleMoreThanTheirNoise() throws Exception {
    System.out.printf(HEAD, "converter, bytes a sample");
    // Noise by the board's figures (hardware-notes) at gain 128, a code 2.3 nV.
    int[] perSecond = {20, 100};
    double[] noiseCodes = {27, 59};
    for (int i = 0; i < perSecond.length; i++) {
      Fed fed = feedCodes(perSecond[i], noiseCodes[i]);
      double entropyBits = Math.log(noiseCodes[i] * Math.sqrt(2 * Math.PI * Math.E)) / Math.log(2);
      String name =
          String.format(
              "%d a second, %.0f codes rms (entropy %.2f)",
              perSecond[i], noiseCodes[i], entropyBits / 8);
      tell(name, "%.3f", fed, 1, beside(fed));
      if (fed.samples > 1_000_000) {
        // A file of a few kilobytes is mostly its empty tables.
        assertThat((double) Files.size(fed.file) / fed.samples).isLessThan(1.2);
      }
    }
  }

  private Map<Form, Cost> beside(Fed fed) throws Exception {
    Map<Form, Cost> costs = new EnumMap<>(Form.class);
    int rows = (int) (fed.samples * HOURS_BESIDE / HOURS);
    try (VigilReader reader = VigilReader.open(fed.file, fed.vigil)) {
      for (Form form : Form.values()) {
        costs.put(form, RowPerSample.cost(form, reader, rows, directory));
      }
    }
    return costs;
  }

  /** One row of the table, and the floors of a whole day. */
  private void tell(
      String name, String digits, Fed fed, double samplesPerUnit, Map<Form, Cost> beside)
      throws Exception {
    StringBuilder row = new StringBuilder("| " + name + " | ");
    double each = (double) Files.size(fed.file) / fed.samples;
    row.append(String.format(digits, each * samplesPerUnit));
    for (Cost cost : beside.values()) {
      row.append(" | ").append(String.format(digits, cost.bytesPerRow() * samplesPerUnit));
    }
    Cold whole = cold(fed, 1, HOURS >= 1 ? TRIES : 1);
    Cold zoom = HOURS >= 1 ? worstZoom(fed) : new Cold(0, 0);
    row.append(
        String.format(
            " | %.0f (%.0f) | %.0f (%.0f)",
            whole.millis, whole.processorMillis, zoom.millis, zoom.processorMillis));
    for (Cost cost : beside.values()) {
      row.append(String.format(" | %.0f", cost.nanosPerRow() * fed.samples * 1e-6));
    }
    double realSeconds = HOURS * 3600;
    double speed = realSeconds / fed.took.processorSeconds;
    System.out.printf(
        "%s |%n(taken in at %.0f times real time, by the processor's time %.0f; heap after an hour"
            + " and the like %d kB, at the end %d kB)%n",
        row, realSeconds / fed.took.seconds, speed, fed.heapEarly / 1024, fed.heapLate / 1024);
    if (DAY) {
      assertThat(speed).isGreaterThan(1000);
      assertThat(Math.max(whole.processorMillis, zoom.processorMillis)).isLessThan(150);
      assertThat((double) fed.heapLate).isBetween(0.95 * fed.heapEarly, 1.05 * fed.heapEarly);
      for (Cost cost : beside.values()) {
        assertThat(whole.millis).isLessThan(cost.nanosPerRow() * fed.samples * 1e-6);
      }
    }
  }

  /**
   * The latest time of an hour and a little more at which the open spans are as full as at the end,
   * or of so much of a shorter vigil.
   */
  private static double earlyHours(Stream stream) {
    double spanHours = stream.spanMicros() / 3_600e6;
    double hour = Math.min(1, HOURS / 24);
    return HOURS - Math.max(0, Math.floor((HOURS - hour) / spanHours)) * spanHours;
  }

  private Fed feedWords(String name, double openingsPerHour) throws Exception {
    Path file = directory.resolve(name.replace(' ', '-') + ".bellwire");
    Took begin = Took.now();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, System::nanoTime);
      Stream ports = store.addWords("ports", VigilFeed.TICK_MICROS);
      Random random = new Random(SEED);
      // The first hour of the day, then all of it; its samples are passed over the second time.
      VigilFeed.words(store, ports, earlyHours(ports), openingsPerHour, 5, new Random(SEED));
      long early = usedHeap(store);
      VigilFeed.words(store, ports, HOURS, openingsPerHour, 5, random);
      long late = usedHeap(store);
      store.close();
      Took took = Took.since(begin);
      return new Fed(file, store.vigil(), Math.round(HOURS * 3_600_000), took, early, late);
    }
  }

  private Fed feedCodes(int perSecond, double noiseCodes) throws Exception {
    Path file = directory.resolve("codes-" + perSecond + ".bellwire");
    Took begin = Took.now();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("trend"), 0, 0, System::nanoTime);
      Stream[] streams = new Stream[VigilFeed.CONDUCTORS];
      for (int i = 0; i < streams.length; i++) {
        streams[i] = store.addCodes("P" + (i + 1), 1_000_000L * VigilFeed.CONDUCTORS / perSecond);
      }
      double firstHours = earlyHours(streams[0]);
      VigilFeed.codes(store, streams, firstHours, perSecond, noiseCodes, new Random(SEED));
      long early = usedHeap(store);
      Random random = new Random(SEED);
      long samples = VigilFeed.codes(store, streams, HOURS, perSecond, noiseCodes, random);
      long late = usedHeap(store);
      store.close();
      Took took = Took.since(begin);
      return new Fed(file, store.vigil(), samples, took, early, late);
    }
  }

  /** So fast, a second's commit would wait with hours of samples. */
  private static long usedHeap(VigilStore store) throws JobFileException {
    store.commit();
    long least = Long.MAX_VALUE;
    for (int i = 0; i < 3; i++) {
      System.gc();
      Runtime runtime = Runtime.getRuntime();
      least = Math.min(least, runtime.totalMemory() - runtime.freeMemory());
    }
    return least;
  }

  /** A drawing's time, and what the processor had to do with it. */
  private record Cold(double millis, double processorMillis) {
    Cold or(Cold worse) {
      return new Cold(
          Math.max(millis, worse.millis), Math.max(processorMillis, worse.processorMillis));
    }
  }

  /** Each once, and the worst some more times. */
  private static Cold worstZoom(Fed fed) throws Exception {
    double worst = 1;
    double most = 0;
    for (double share : ZOOMS) {
      double millis = cold(fed, share, 1).processorMillis;
      worst = millis > most ? share : worst;
      most = Math.max(most, millis);
    }
    return cold(fed, worst, TRIES);
  }

  /** The least of some tries, for other programs share the processor. */
  private static Cold cold(Fed fed, double share, int tries) throws Exception {
    long to = Math.round(HOURS * 3_600e6);
    long from = Math.round(to * (1 - share) / 2);
    Cold least = new Cold(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
    for (int again = 0; again < tries; again++) {
      Cold one = coldStretch(fed, from, from + Math.round(to * share));
      least =
          new Cold(
              Math.min(least.millis, one.millis),
              Math.min(least.processorMillis, one.processorMillis));
    }
    return least;
  }

  /** In a process of its own, the file's pages dropped from the system's cache where dd can. */
  private static Cold coldStretch(Fed fed, long from, long to) throws Exception {
    new ProcessBuilder("dd", "if=" + fed.file, "iflag=nocache", "count=0")
        .redirectErrorStream(true)
        .start()
        .waitFor(10, TimeUnit.SECONDS);
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
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
    return new Cold(Double.parseDouble(millis[0]), Double.parseDouble(millis[1]));
  }
}
