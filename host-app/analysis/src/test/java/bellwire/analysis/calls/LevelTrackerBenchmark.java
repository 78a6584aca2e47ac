package bellwire.analysis.calls;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Samples a second: dry contacts at rest, and sixteen calls of AC at once. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class LevelTrackerBenchmark {
  private static final int SAMPLES = 100_000;

  private long changes;
  private final LevelTracker dry = new LevelTracker(Feed.DRY, 0xFFFF, c -> changes++);
  private final LevelTracker ac = new LevelTracker(Feed.AC, 0xFFFF, c -> changes++);
  private final int[] words = new int[SAMPLES];
  private final int[] rest = new int[SAMPLES];
  private long dryMicros;
  private long acMicros;

  public LevelTrackerBenchmark() {
    for (int i = 0; i < SAMPLES; i++) { // a whole number of periods of 60 Hz: 6000
      words[i] = Math.abs(34 * Math.sin(2e-3 * Math.PI * 60 * i)) > 9 ? 0xFFFF : 0;
      rest[i] = 0x0005;
    }
  }

  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public long dryUnchanged() {
    for (int i = 0; i < SAMPLES; i++) {
      dryMicros += 1000;
      dry.sample(dryMicros, 40, rest[i]);
    }
    return changes;
  }

  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public long sixteenCallsOfAc() {
    for (int i = 0; i < SAMPLES; i++) {
      acMicros += 1000;
      ac.sample(acMicros, 40, words[i]);
    }
    return changes;
  }
}
