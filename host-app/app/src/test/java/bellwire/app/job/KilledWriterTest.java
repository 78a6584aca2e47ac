package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A process that writes a vigil is killed (SIGKILL) at random points, again and again, and goes on
 * with the same file: nothing acknowledged may be missing or different, and the agent is never told
 * of more than is there.
 */
class KilledWriterTest {
  private static final int KILLS = Integer.getInteger("bellwire.kills", 5);
  private static final long SEED = Long.getLong("bellwire.seed", 6);

  @TempDir Path directory;

  private long acknowledgements;
  private long samples;
  private int whileOpening;

  @Test
  @Timeout(value = 1, unit = TimeUnit.HOURS)
  void everyAcknowledgedSampleIsThereAfterEveryKill() throws Exception {
    System.out.println("KilledWriterTest: seed=" + SEED);
    Random random = new Random(SEED);
    Path file = directory.resolve("killed.bellwire");
    long[] acknowledged = new long[KilledWriter.STREAMS + 1];
    for (int kill = 0; kill < KILLS; kill++) {
      long[] from = acknowledged.clone();
      // One in five falls into opening and recovering, one into creating a file.
      boolean opening = kill % 5 == 4;
      if (kill % 5 == 3) {
        killWhileCreating(directory.resolve("new-" + kill + ".bellwire"), random.nextInt(400));
        continue;
      }
      runAndKill(file, opening, random.nextInt(opening ? 400 : 150), acknowledged);
      if (acknowledged[0] > 0) {
        samples += check(file, from, acknowledged);
      }
    }
    long[] begin = new long[KilledWriter.STREAMS + 1];
    long all = check(file, begin, acknowledged);
    try (JobFile job = JobFile.open(file)) {
      job.resumeVigil(1, () -> 0).close();
    }
    assertThat(check(file, begin, acknowledged)).isEqualTo(all);
    System.out.printf(
        "%d kills, %d of them before the first commit; %d acknowledgements; %d samples checked"
            + " after their kill, %d at the end; missing 0, different 0, gaps 0, sources ahead 0;"
            + " every file opened%n",
        KILLS, whileOpening, acknowledgements, samples, all);
    assertThat(acknowledgements).isGreaterThan(KILLS / 2);
  }

  private void runAndKill(Path file, boolean opening, long millis, long[] acknowledged)
      throws IOException, InterruptedException {
    String classPath =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                classPath,
                KilledWriter.class.getName(),
                file.toString())
            .redirectErrorStream(true)
            .start();
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      String line = "";
      while (line != null && !line.startsWith(opening ? "begun" : "ack")) {
        assertThat(line).doesNotContain("xception");
        line = lines.readLine();
      }
      assertThat(line).as("the writer ended by itself").isNotNull();
      Thread killer = new Thread(() -> killAfter(process, millis));
      killer.start();
      boolean any = false;
      while (line != null) {
        assertThat(line).doesNotContain("xception");
        any |= take(line, acknowledged);
        line = lines.readLine();
      }
      killer.join();
      whileOpening += any ? 0 : 1;
    }
    assertThat(process.waitFor()).isEqualTo(128 + 9);
  }

  /** Of a file that was not there before. */
  private void killWhileCreating(Path file, long millis) throws Exception {
    long[] acknowledged = new long[KilledWriter.STREAMS + 1];
    runAndKill(file, true, millis, acknowledged);
    JobFile.open(file).close();
    if (acknowledged[0] > 0) {
      check(file, new long[KilledWriter.STREAMS + 1], acknowledged);
    }
  }

  private static void killAfter(Process process, long millis) {
    try {
      process.waitFor(millis, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    // By its handle, which leaves the pipe open: what it said last is still to be read.
    process.toHandle().destroyForcibly();
  }

  /** A line that the kill cut off counts as not said. */
  private boolean take(String line, long[] acknowledged) {
    String[] words = line.split(" ", -1);
    if (!words[0].equals("ack") || words.length != 1 + acknowledged.length) {
      return false;
    }
    for (int i = 0; i < acknowledged.length; i++) {
      acknowledged[i] = Math.max(acknowledged[i], Long.parseLong(words[i + 1]));
    }
    acknowledgements++;
    return true;
  }

  /** Every sample from one time to another, and those behind it that were stored as well. */
  private static long check(Path file, long[] from, long[] acknowledged) throws Exception {
    long checked = 0;
    try (VigilReader reader = VigilReader.open(file, 1)) {
      List<Stream> streams = reader.streams();
      for (int i = 0; i < streams.size(); i++) {
        Stream stream = streams.get(i);
        long period = stream.periodMicros();
        long[] next = {Math.max(0, from[i] / period * period)};
        long begin = next[0];
        int index = i;
        assertThat(
                reader.samples(
                    stream,
                    begin,
                    Long.MAX_VALUE,
                    (first, count, value, latches) -> {
                      for (int k = 0; k < count; k++) {
                        compare(index, first + k * period, next[0], value, latches);
                        next[0] += period;
                      }
                    }))
            .isEmpty();
        assertThat(next[0]).as(stream.name()).isGreaterThanOrEqualTo(acknowledged[i]);
        assertThat(reader.gaps(stream, 0, Long.MAX_VALUE)).isEmpty();
        checked += (next[0] - begin) / period;
      }
      checkSource(reader, acknowledged);
    }
    return checked;
  }

  /** Not behind what was acknowledged, and not ahead of any stream. */
  private static void checkSource(VigilReader reader, long[] acknowledged) throws Exception {
    long next = reader.sources().stream().mapToLong(Source::nextSequence).findFirst().orElse(0);
    assertThat(next).isGreaterThanOrEqualTo(acknowledged[KilledWriter.STREAMS]);
    for (Stream stream : reader.streams()) {
      // The frame of tick n carries the codes of the last multiple of ten as well.
      long lastDue = (next - 1) * KilledWriter.TICK_MICROS / stream.periodMicros();
      if (next > 0) {
        assertThat(reader.lastMicros(stream).orElse(-1))
            .as("source ahead of " + stream.name())
            .isGreaterThanOrEqualTo(lastDue * stream.periodMicros());
      }
    }
  }

  private static void compare(int stream, long micros, long expected, int value, int latches) {
    long tick = micros / KilledWriter.TICK_MICROS;
    int wanted = stream == 0 ? KilledWriter.word(tick) : KilledWriter.code(stream, tick);
    int wantedLatches = stream == 0 ? KilledWriter.latches(tick) : 0;
    if (micros != expected || value != wanted || latches != wantedLatches) {
      throw new AssertionError(
          "stream=" + stream + " micros=" + micros + " expected=" + expected + " value=" + value);
    }
  }
}
