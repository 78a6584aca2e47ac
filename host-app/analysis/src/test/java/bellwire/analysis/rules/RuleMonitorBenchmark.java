package bellwire.analysis.rules;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Samples a second through twenty rules on sixteen signals at 1 kHz, by how long it has run. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class RuleMonitorBenchmark {
  private static final int BLOCK = 1 << 16;
  private static final long SEED = 5;

  /** What the trace has behind it. */
  @Param({"1", "60", "1440"})
  public int minutes;

  private final int[] calm = TwentyRules.words(BLOCK, 2, SEED);
  private final int[] busy = TwentyRules.words(BLOCK, 120, SEED);
  private RuleMonitor monitor;
  private WordFeed feed;
  private long micros;

  @Setup(Level.Trial)
  public void run() throws BadExpression {
    micros = 0;
    monitor = new RuleMonitor(TwentyRules.rules(), TwentyRules.FACTS, 100);
    feed = new WordFeed(monitor, 16);
    for (long blocks = minutes * 60_000L / BLOCK; blocks >= 0; blocks--) {
      feed(calm);
    }
  }

  private void feed(int[] words) {
    for (int word : words) {
      feed.sample(micros, word);
      micros += 1000;
    }
  }

  /** Each signal changes about once in half a minute, bouncing twice. */
  @Benchmark
  @OperationsPerInvocation(BLOCK)
  public long calls() {
    feed(calm);
    return micros;
  }

  /** Each signal changes about twice a second, bouncing twice: nearly a hundred edges a second. */
  @Benchmark
  @OperationsPerInvocation(BLOCK)
  public long chatter() {
    feed(busy);
    return micros;
  }

  /** All verdicts so far, as a live display asks for them. */
  @Benchmark
  public List<Ruling> rulings() {
    return monitor.rulings();
  }
}
