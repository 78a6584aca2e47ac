package bellwire.analysis.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;

/**
 * The monitor against {@link SlowEvaluator}. The gate draws 10,000 pairs of a formula and a trace;
 * {@code -Dbellwire.formulas=100000} draws more, {@code -Dbellwire.seed=N} others.
 */
class MonitorOracleTest {

  private final long seed = Long.getLong("bellwire.seed", 41);
  private final int pairs = Integer.getInteger("bellwire.formulas", 10_000);
  private int agreed;
  private int kept;
  private int broken;
  private int undecided;
  private int prefixes;
  private int completions;

  @Test
  void agreesWithTheDefinitions() {
    System.out.println("formula/trace pairs=" + pairs + " seed=" + seed);
    SplittableRandom seeds = new SplittableRandom(seed);
    for (int i = 0; i < pairs; i++) {
      SplittableRandom random = seeds.split();
      RandomLogic logic = new RandomLogic(random);
      Formula formula = logic.rule(1 + random.nextInt(4));
      long begin = random.nextInt(3) == 0 ? random.nextInt(-20, 20) : 0;
      long end = begin + 1 + random.nextInt(30);
      Map<String, Signal> signals = logic.signals(begin, end, random.nextBoolean());
      TraceEnd traceEnd = TraceEnd.values()[random.nextInt(3)];
      int pair = i;
      Supplier<String> name =
          () -> "pair " + pair + ": " + formula + " " + traceEnd + " of " + signals;
      check(name, formula, signals, begin, end, traceEnd);
      checkPrefixes(name, formula, signals, begin, end, random);
      checkCompletions(name, formula, signals, begin, end, logic, random);
      agreed++;
    }
    System.out.printf(
        "agreed=%d of %d; kept=%d broken=%d undecided=%d; prefixes=%d completions=%d%n",
        agreed, pairs, kept, broken, undecided, prefixes, completions);
    assertThat(List.of(kept, broken, undecided)).allMatch(count -> count > pairs / 20);
  }

  /** Output signal, verdict and the cheaper monitor of the verdict alone. */
  private void check(
      Supplier<String> name,
      Formula formula,
      Map<String, Signal> signals,
      long begin,
      long end,
      TraceEnd traceEnd) {
    SlowEvaluator oracle = new SlowEvaluator(signals, begin, end, traceEnd);
    Signal.Builder expected = Signal.builder(begin);
    for (long t = begin; t < end; t++) {
      expected.until(t + 1, oracle.at(formula, t));
    }
    Signal output = LogicMonitor.evaluate(formula, signals, begin, end, traceEnd);
    assertThat(output).as(name).isEqualTo(expected.build());

    LogicMonitor monitor = new LogicMonitor(formula, begin);
    Replay.of(signals, begin, end).into(monitor);
    Robustness first = monitor.finish(end, traceEnd);
    assertThat(first).as(name).isEqualTo(output.value(0));
    switch (first.verdict()) {
      case KEPT -> kept++;
      case BROKEN -> broken++;
      case UNDECIDED -> undecided++;
    }
  }

  /** Told in pieces of random length, and asked after each. */
  private void checkPrefixes(
      Supplier<String> name,
      Formula formula,
      Map<String, Signal> signals,
      long begin,
      long end,
      SplittableRandom random) {
    List<Robustness> pieces = new ArrayList<>();
    LogicMonitor online =
        new LogicMonitor(
            formula,
            begin,
            (from, to, value) -> {
              for (long t = from; t < to; t++) {
                pieces.add(value);
              }
            });
    LogicMonitor first = new LogicMonitor(formula, begin);
    Replay replay = Replay.of(signals, begin, end);
    int next = 0;
    for (long now = begin; now < end; ) {
      now = Math.min(end, now + 1 + random.nextInt(8));
      for (; next < replay.changes().size(); next++) {
        Replay.Change change = replay.changes().get(next);
        if (change.micros() >= now) {
          break;
        }
        tell(online, change);
        tell(first, change);
      }
      online.advance(now);
      first.advance(now);
      if (random.nextInt(3) == 0) {
        SlowEvaluator soFar = new SlowEvaluator(signals, begin, now, TraceEnd.OPEN);
        Robustness expected = soFar.at(formula, begin);
        assertThat(first.soFar()).as(name).isEqualTo(expected);
        assertThat(online.soFar()).as(name).isEqualTo(expected);
        assertThat(first.settled().contains(expected)).as(name).isTrue();
        prefixes++;
      }
    }
    online.finish(end, TraceEnd.CUT);
    Signal offline = LogicMonitor.evaluate(formula, signals, begin, end, TraceEnd.CUT);
    List<Robustness> expected = new ArrayList<>();
    for (long t = begin; t < end; t++) {
      expected.add(offline.at(t));
    }
    assertThat(pieces).as(name).isEqualTo(expected);
  }

  private static void tell(LogicMonitor monitor, Replay.Change change) {
    int signal = monitor.number(change.signal());
    if (signal >= 0) {
      Robustness value = change.value();
      monitor.change(signal, change.micros(), value.low(), value.high());
    }
  }

  /** However the unknown is filled in, and however the trace goes on, it lies within the bounds. */
  private void checkCompletions(
      Supplier<String> name,
      Formula formula,
      Map<String, Signal> signals,
      long begin,
      long end,
      RandomLogic logic,
      SplittableRandom random) {
    Signal cut = LogicMonitor.evaluate(formula, signals, begin, end, TraceEnd.CUT);
    Signal open = LogicMonitor.evaluate(formula, signals, begin, end, TraceEnd.OPEN);
    Map<String, Signal> drawn = logic.completion(signals, begin, end);
    SlowEvaluator oracle = new SlowEvaluator(drawn, begin, end, TraceEnd.CUT);
    long longer = end + random.nextInt(12);
    Map<String, Signal> goingOn = logic.completion(signals, begin, longer);
    SlowEvaluator later = new SlowEvaluator(goingOn, begin, longer, TraceEnd.CUT);
    for (long t = begin; t < end; t++) {
      if (!cut.at(t).contains(oracle.at(formula, t))
          || !open.at(t).contains(later.at(formula, t))) {
        fail(name.get() + " at " + t);
      }
      completions += 2;
    }
  }
}
