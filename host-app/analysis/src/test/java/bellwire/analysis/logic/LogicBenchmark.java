package bellwire.analysis.logic;

import java.util.ArrayList;
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

/**
 * Twenty formulas on sixteen Boolean signals, sampled every millisecond. A sample is one word of
 * sixteen bits; the calls change as a control's do, some bit every 30 s, with five bounces each. A
 * minute of trace is one invocation, and the trace goes on from there: the parameter says how many
 * minutes of it were behind when the measurement began.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class LogicBenchmark {

  private static final int SAMPLES = 60_000;
  private static final int SIGNALS = 16;

  @Param({"1", "60", "1440"})
  int minutesBehind;

  private final int[] words = new int[SAMPLES];
  private final int[][] numbers = new int[20][SIGNALS];
  private final List<LogicMonitor> monitors = new ArrayList<>();
  private long sample;
  private int last;

  @Setup(Level.Trial)
  public void prepare() throws BadFormula {
    int word = 0;
    for (int i = 0; i < SAMPLES; i++) {
      int phase = i % 30_000;
      if (phase < 10) {
        word ^= 1 << (i / 30_000 * 7 % SIGNALS);
      }
      words[i] = word;
    }
    monitors.clear();
    for (int i = 0; i < 20; i++) {
      LogicMonitor monitor = new LogicMonitor(FormulaParser.parse(text(i)), 0);
      for (int k = 0; k < SIGNALS; k++) {
        numbers[i][k] = monitor.number("X" + k);
      }
      monitors.add(monitor);
    }
    last = ~words[0];
    sample = 0;
    for (int minute = 0; minute < minutesBehind; minute++) {
      minute();
    }
  }

  private static String text(int i) {
    String a = "X" + i % SIGNALS;
    String b = "X" + (i * 7 + 3) % SIGNALS;
    return switch (i % 5) {
      case 0 -> "G(" + a + " -> F[0,2 s] " + b + ")";
      case 1 -> "G(fall(" + a + ") -> G[0,300 s] !" + a + ")";
      case 2 -> "G !(" + a + " & " + b + ")";
      case 3 -> "G(rise(" + a + ") -> " + a + " U[5 s,600 s] " + b + ")";
      default -> "G(" + a + " -> O[0,60 s] " + b + ")";
    };
  }

  /** Samples a second. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public int minute() {
    for (int i = 0; i < SAMPLES; i++, sample++) {
      int word = words[i];
      if (word != last) {
        change(word ^ last, word, sample * 1000);
        last = word;
      }
    }
    int held = 0;
    for (LogicMonitor monitor : monitors) {
      monitor.advance(sample * 1000);
      held += monitor.held();
    }
    return held;
  }

  private void change(int changed, int word, long micros) {
    for (int bits = changed & 0xFFFF; bits != 0; bits &= bits - 1) {
      int signal = Integer.numberOfTrailingZeros(bits);
      boolean on = (word >> signal & 1) != 0;
      for (int i = 0; i < numbers.length; i++) {
        if (numbers[i][signal] >= 0) {
          monitors.get(i).change(numbers[i][signal], micros, on);
        }
      }
    }
  }

  /** Changes a second: the costly part alone, one changed bit a millisecond. */
  @Benchmark
  @OperationsPerInvocation(SAMPLES)
  public int everySampleChanges() {
    for (int i = 0; i < SAMPLES; i++, sample++) {
      int word = last ^ 1 << (sample * 7 % SIGNALS);
      change(word ^ last, word, sample * 1000);
      last = word;
    }
    return monitors.get(0).held();
  }
}
