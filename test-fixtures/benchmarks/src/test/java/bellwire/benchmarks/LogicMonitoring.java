package bellwire.benchmarks;

import bellwire.analysis.logic.BadFormula;
import bellwire.analysis.logic.Formula;
import bellwire.analysis.logic.FormulaParser;
import bellwire.analysis.logic.LogicMonitor;
import bellwire.analysis.logic.Signal;
import bellwire.analysis.logic.SlowEvaluator;
import bellwire.analysis.logic.TraceEnd;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A formula over a trace of 2000 moments with windows of up to 200: its robustness at each of them.
 * The peer is the definitions as they stand, each moment of each window looked at.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 7, time = 1)
public class LogicMonitoring {
  private static final int MOMENTS = 2000;
  private static final long SEED = 9;
  private static final String RULE =
      "G(rise(a) -> F[0,200 us] b) & G(b -> O[0,100 us] a) & G(fall(b) -> G[0,50 us] !b)";

  private final Formula formula = formula();
  private final Map<String, Signal> signals =
      Map.of("a", signal(new Random(SEED)), "b", signal(new Random(SEED + 1)));

  public LogicMonitoring() {
    if (!ours().equals(definitions())) {
      throw new IllegalStateException("the monitor disagrees with the definitions, seed=" + SEED);
    }
  }

  private static Formula formula() {
    try {
      return FormulaParser.parse(RULE);
    } catch (BadFormula e) {
      throw new IllegalStateException(e);
    }
  }

  /** Changes once in some forty moments. */
  private static Signal signal(Random random) {
    Signal.Builder signal = Signal.builder(0);
    boolean on = false;
    for (int at = 0; at < MOMENTS; on = !on) {
      at = Math.min(MOMENTS, at + 1 + random.nextInt(80));
      signal.until(at, on);
    }
    return signal.build();
  }

  @Benchmark
  public final Signal ours() {
    return LogicMonitor.evaluate(formula, signals, 0, MOMENTS, TraceEnd.OPEN);
  }

  @Benchmark
  public final Signal definitions() {
    SlowEvaluator slow = new SlowEvaluator(signals, 0, MOMENTS, TraceEnd.OPEN);
    Signal.Builder result = Signal.builder(0);
    for (int t = 0; t < MOMENTS; t++) {
      result.until(t + 1, slow.at(formula, t));
    }
    return result.build();
  }
}
