package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.agent.record.RecordSettings;
import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.WrappedLine;
import bellwire.app.job.Gap;
import bellwire.app.job.JobFile;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.link.Transport;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The link is cut and the host's program ended, what it had not committed lost, at random moments
 * of a vigil: the file has every reading in the end. More by {@code -Dbellwire.kills=200}, others
 * by {@code -Dbellwire.seed=2}.
 */
class VigilSurvivalTest {
  private static final int KILLS = Integer.getInteger("bellwire.kills", 12);
  private static final long SEED = Long.getLong("bellwire.seed", 1);
  private static final long UNIX = 1_780_000_000_000_000L;

  @TempDir private Path directory;

  /** A line that is pulled out at times: what was on its way is lost. */
  private static final class PulledLine extends WrappedLine {
    private final byte[] spilled = new byte[4096];
    private long backMicros = -1;
    private int cuts;

    PulledLine(BenchTransport line) {
      super(line);
    }

    void pull(long micros) {
      backMicros = line.nowMicros() + micros;
      cuts++;
      spill();
    }

    void plugIn() {
      backMicros = -1;
    }

    private boolean out() {
      return line.nowMicros() < backMicros;
    }

    private void spill() {
      while (line.read(spilled) > 0) {
        // gone
      }
    }

    @Override
    public int read(byte[] into) {
      if (out()) {
        spill();
        return 0;
      }
      return super.read(into);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (!out()) {
        super.write(bytes, off, len);
      }
    }

    @Override
    public void close() {
      // the device outlives its host
    }
  }

  @Test
  void everyReadingIsThereAfterCutsAndKills() throws Exception {
    StringBuilder text = new StringBuilder(SimulatedVigil.cable(5, "tie", SEED));
    for (int p = 2; p <= 5; p++) {
      text.append(
          String.format(
              Locale.ROOT,
              "  - {opening: P%d, at: 0.5, poisson: {per-hour: 120}, lasting: 1 ms .. 1 s}%n",
              p));
    }
    double hours = (KILLS + 4) * 40.0 / 3600;
    Path file = directory.resolve("survival.bellwire");
    SplittableRandom random = new SplittableRandom(SEED);
    int kills = 0;
    List<Long> acknowledged = new ArrayList<>();
    try (SimulatedDevice device =
        new SimulatedDevice(BenchFile.parse("survival.yaml", text.toString()))) {
      PulledLine line = new PulledLine(BenchTransport.of(device));
      VigilRun.Means means = means(line);
      boolean goesOn = true;
      while (goesOn) {
        JobFile job = JobFile.open(file);
        VigilRun run;
        if (kills == 0 && acknowledged.isEmpty()) {
          run = VigilRun.begin(job, order(hours), means);
        } else {
          line.plugIn(); // whoever starts it again sees to that first
          VigilRow left = VigilRun.unfinished(file).orElseThrow();
          run = VigilRun.resume(job, left, VigilRun.order(file, left), means);
        }
        long killMicros = line.nowMicros() + random.nextLong(1_000_000, 50_000_000);
        long cutMicros = random.nextLong(line.nowMicros(), killMicros);
        boolean cut = false;
        while (goesOn && (kills >= KILLS || line.nowMicros() < killMicros)) {
          goesOn = run.step(random.nextLong(10_000, 1_000_000));
          if (!cut && line.nowMicros() > cutMicros) {
            cut = true;
            line.pull(random.nextLong(100_000, 20_000_000));
          }
        }
        if (goesOn) {
          kills++;
          acknowledged.add(lastStored(file));
          job.close(); // and what had not been committed is lost
        } else {
          run.close();
          job.close();
        }
      }
      report(file, hours, kills, line.cuts);
    }
    assertThat(kills).isEqualTo(KILLS);
  }

  /** The agent's power is cut while the line is out: what its disk has comes all the same. */
  @Test
  void whatTheAgentRecordedComesAfterItsPowerWasCut() throws Exception {
    String text =
        SimulatedVigil.cable(5, "tie", SEED)
            + "  - {opening: P2, at: 0.5, poisson: {per-hour: 120}, lasting: 1 ms .. 1 s}\n";
    Bench bench = BenchFile.parse("power.yaml", text);
    Path file = directory.resolve("power.bellwire");
    int cuts = Math.max(4, KILLS / 4);
    SplittableRandom random = new SplittableRandom(SEED + 100);
    try (PoweredLine line = new PoweredLine(bench, directory.resolve("record"));
        JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(cuts * 60.0 / 3600), means(line))) {
      boolean goesOn = true;
      for (int i = 0; goesOn && i < cuts; i++) {
        goesOn = on(run, line, random.nextLong(2_000_000, 20_000_000));
        line.out = true;
        goesOn = goesOn && on(run, line, random.nextLong(2_000_000, 20_000_000));
        line.device.cutPower();
        goesOn = goesOn && on(run, line, random.nextLong(500_000, 5_000_000));
        line.device.power();
        line.out = false;
      }
      while (goesOn) {
        goesOn = run.step(1_000_000);
      }
      assertThat(run.ending()).isEqualTo("its time was over");
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      long[] seen = readings(reader);
      List<Gap> gaps = reader.gaps(reader.streams().get(0), 0, Long.MAX_VALUE / 4);
      long missing = gaps.stream().mapToLong(g -> (g.toMicros() - g.fromMicros()) / 1000).sum();
      long longest = gaps.stream().mapToLong(g -> g.toMicros() - g.fromMicros()).max().orElse(0);
      System.out.printf(
          Locale.ROOT,
          "power cuts: seed=%d cuts=%d readings=%d gaps=%d longest=%.1f s unaccounted=%d%n",
          SEED,
          cuts,
          seen[2],
          gaps.size(),
          longest / 1e6,
          (seen[1] - seen[0]) / 1000 + 1 - seen[2] - missing);
      assertThat(gaps).hasSize(cuts);
      assertThat(seen[1] - seen[0]).isGreaterThan(cuts * 60_000_000L - 5_000_000); // by the clock
      assertThat((seen[1] - seen[0]) / 1000 + 1 - seen[2] - missing)
          .isBetween(-2L * cuts, 2L * cuts);
      // Off for 5 s at most, what the disk had not taken, and the way back: quiet, armed, begun.
      assertThat(longest).isLessThan(5_000_000 + 2_500_000 + 6_000_000);
    }
  }

  private static boolean on(VigilRun run, PoweredLine line, long micros) throws Exception {
    long until = line.nowMicros() + micros;
    boolean goesOn = true;
    while (goesOn && line.nowMicros() < until) {
      goesOn = run.step(100_000);
    }
    return goesOn;
  }

  /** A device with a disk of its own, on a line that is out at times. */
  private static final class PoweredLine implements Transport {
    private final SimulatedDevice device;
    private final byte[] spilled = new byte[4096];
    private boolean out;

    PoweredLine(Bench bench, Path record) {
      RecordSettings settings = new RecordSettings(record, 64 << 20);
      device =
          new SimulatedDevice(bench, SEED, 1, Optional.of(new SimulatedDevice.Disk(settings, 0)));
    }

    @Override
    public int read(byte[] into) {
      while (out && device.read(spilled) > 0) {
        // gone
      }
      return out ? 0 : device.read(into);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (!out) {
        device.write(bytes, off, len);
      }
    }

    @Override
    public long nowMicros() {
      return device.micros();
    }

    @Override
    public void await(long micros) {
      device.run(micros);
    }

    @Override
    public String name() {
      return "a bench with power";
    }

    @Override
    public void close() {
      device.close();
    }
  }

  private static VigilOrder order(double hours) {
    return SimulatedVigil.order(99, Math.round(hours * 3600e6));
  }

  private static VigilRun.Means means(Transport line) {
    return SimulatedVigil.means(line, () -> UNIX + line.nowMicros());
  }

  /** What is in the file at this moment, for another reader. */
  private static long lastStored(Path file) throws Exception {
    try (VigilReader reader = VigilReader.open(file, 1)) {
      return readings(reader)[1];
    }
  }

  /** First and last reading's time, and how many there are. */
  private static long[] readings(VigilReader reader) throws Exception {
    long[] seen = {Long.MAX_VALUE, Long.MIN_VALUE, 0};
    reader.samples(
        reader.streams().get(0),
        0,
        Long.MAX_VALUE / 4,
        (first, count, value, latches) -> {
          seen[0] = Math.min(seen[0], first);
          seen[1] = Math.max(seen[1], first + (count - 1) * 1000L);
          seen[2] += count;
        });
    return seen;
  }

  private static void report(Path file, double hours, int kills, int cuts) throws Exception {
    try (VigilReader reader = VigilReader.open(file, 1)) {
      long[] seen = readings(reader);
      List<Gap> gaps = reader.gaps(reader.streams().get(0), 0, Long.MAX_VALUE / 4);
      long expected = (seen[1] - seen[0]) / 1000 + 1;
      System.out.printf(
          Locale.ROOT,
          "survival: seed=%d hours=%.2f kills=%d cuts=%d readings=%d missing=%d gaps=%d events=%d%n",
          SEED,
          hours,
          kills,
          cuts,
          seen[2],
          expected - seen[2],
          gaps.size(),
          reader.events().size());
      assertThat(seen[2]).isEqualTo(expected);
      assertThat(gaps).isEmpty();
      assertThat(expected).isGreaterThan(Math.round(hours * 3_600_000) - 3000);
      assertThat(reader.row().ending()).isPresent();
    }
  }
}
