package bellwire.agent.record;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A process that records is killed (SIGKILL) at random points, again and again, in the same
 * directory: every frame that it had called safe is handed over afterwards, once and in order.
 */
class KilledAgentTest {
  private static final int KILLS = Integer.getInteger("bellwire.kills", 5);
  private static final long SEED = Long.getLong("bellwire.seed", 6);

  @TempDir Path directory;

  @Test
  @Timeout(value = 1, unit = TimeUnit.HOURS)
  void everyFrameThatWasSafeIsHandedOverAfterEveryKill() throws Exception {
    Random random = new Random(SEED);
    Map<Long, Long> safe = new HashMap<>();
    long handed = 0;
    long beyond = 0;
    for (int kill = 1; kill <= KILLS; kill++) {
      long boot = 2L * kill;
      safe.put(boot, killed(boot, random.nextInt(kill % 4 == 3 ? 400 : 2500), kill % 4 == 3));
      if (kill % 3 != 0 && kill < KILLS) {
        continue; // the next one finds several boots
      }
      LogBench after = new LogBench(directory, 256 << 20, boot + 1, 100);
      List<Message.Recorded> all = after.earlier(true);
      after.log.close();
      assertThat(after.troubles).isEmpty();
      Map<Long, List<Message.Recorded>> boots =
          all.stream().collect(Collectors.groupingBy(Message.Recorded::boot));
      for (Map.Entry<Long, Long> each : safe.entrySet()) {
        List<Message.Recorded> frames = boots.getOrDefault(each.getKey(), List.of());
        assertThat(frames.size())
            .as("kill=%d", kill)
            .isGreaterThanOrEqualTo((int) (long) each.getValue());
        for (int i = 0; i < frames.size(); i++) {
          assertThat(frames.get(i).sequence()).isEqualTo(i);
          assertThat(frames.get(i).lost()).isZero();
          assertThat(LogBench.isRight(frames.get(i))).isTrue();
        }
        handed += frames.size();
        beyond += frames.size() - each.getValue();
      }
      assertThat(LogBench.segments(directory)).isEmpty();
      safe.clear();
    }
    System.out.printf(
        "KilledAgentTest: seed=%d kills=%d handed over=%d (%d of them not yet called safe)"
            + " missing=0 different=0%n",
        SEED, KILLS, handed, beyond);
    assertThat(handed).isGreaterThan(20L * KILLS);
  }

  /** Lets a process record and kills it. Returns the number below which it had called all safe. */
  private long killed(long boot, long millis, boolean atOnce)
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
                LogWriter.class.getName(),
                directory.toString(),
                String.valueOf(boot))
            .redirectErrorStream(true)
            .start();
    long safe = 0;
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      String line = atOnce ? "" : lines.readLine();
      assertThat(line).as("the writer ended by itself").isNotNull();
      Thread killer = new Thread(() -> killAfter(process, millis));
      killer.start();
      for (; line != null; line = lines.readLine()) {
        String[] words = line.split(" ", -1);
        boolean whole = words.length == 4 && words[0].equals("safe") && words[3].equals(".");
        assertThat(whole || !line.contains("xception") && !line.startsWith("trouble"))
            .as(line)
            .isTrue();
        if (whole) {
          safe = Long.parseLong(words[1]);
          assertThat(words[2]).as("dropped").isEqualTo("0");
        }
      }
      killer.join();
    }
    assertThat(process.waitFor()).isEqualTo(128 + 9);
    return safe;
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
}
