package bellwire.analysis.logic;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Follows a formula while its signals change. It is told the changes in order of time, and says
 * within which bounds the formula's robustness at the trace's beginning lies; with a sink, at every
 * moment. Each change costs constant time on average; what is held is bounded by the changes within
 * the formula's horizon. docs/temporal-logic.md has the semantics and what operators without an
 * upper bound cost. Not thread safe.
 */
public final class LogicMonitor {

  private final long beginMicros;
  private final Network network;
  private final List<InputStage[]> stagesBySignal = new ArrayList<>();
  private final Map<String, Integer> numbers = new LinkedHashMap<>();
  private long nowMicros;
  private @Nullable Robustness finished;

  /** A monitor of the robustness at the beginning alone, which is the cheaper. */
  public LogicMonitor(Formula formula, long beginMicros) {
    this(formula, beginMicros, null);
  }

  /**
   * @param beginMicros the trace's first moment; every signal is unknown from there until told
   * @param sink gets the robustness at each moment, in order, as soon as it is final
   */
  public LogicMonitor(Formula formula, long beginMicros, @Nullable RobustnessSink sink) {
    if (Math.abs(beginMicros) > Bounds.LONGEST_MICROS) {
      throw new IllegalArgumentException("beginMicros=" + beginMicros);
    }
    this.beginMicros = beginMicros;
    this.nowMicros = beginMicros;
    this.network = new Network(formula, beginMicros, sink);
    for (String signal : formula.signals()) {
      numbers.put(signal, stagesBySignal.size());
      stagesBySignal.add(
          network.inputs().stream()
              .filter(input -> input.signal().equals(signal))
              .map(Network.Input::stage)
              .toArray(InputStage[]::new));
    }
  }

  /** The number of a signal, for the changes to come; -1 where the formula has none such. */
  public int number(String signal) {
    return numbers.getOrDefault(signal, -1);
  }

  /** The signal has the value from the moment on. */
  public void change(int signal, long micros, double value) {
    change(signal, micros, value, value);
  }

  /** The Boolean signal has the value from the moment on. */
  public void change(int signal, long micros, boolean value) {
    double infinity = value ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    change(signal, micros, infinity, infinity);
  }

  /** Nothing is known of the signal from the moment on. */
  public void unknown(int signal, long micros) {
    change(signal, micros, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  /**
   * The signal lies between two values from the moment on; of several changes at one moment the
   * last counts.
   *
   * @param signal by {@link #number}
   * @param micros not before any moment told so far
   */
  public void change(int signal, long micros, double low, double high) {
    if (!(low <= high)) {
      throw new IllegalArgumentException("low=" + low + " high=" + high);
    }
    advance(micros);
    for (InputStage stage : stagesBySignal.get(signal)) {
      stage.set(low, high);
    }
  }

  /** No change before the moment comes any more. */
  public void advance(long micros) {
    if (finished != null || micros < nowMicros || micros > 4 * Bounds.LONGEST_MICROS) {
      throw new IllegalArgumentException(
          "micros=" + micros + " nowMicros=" + nowMicros + " finished=" + (finished != null));
    }
    if (micros > nowMicros) {
      nowMicros = micros;
      network.advance(micros);
    }
  }

  /**
   * The robustness at the beginning where it is final already, otherwise everything is possible. At
   * most the formula's horizon late; costs nothing.
   */
  public Robustness settled() {
    Robustness first = network.first();
    return first == null ? Robustness.UNKNOWN : first;
  }

  /**
   * The bounds on the robustness at the beginning by all that was told: true of every way in which
   * the trace can go on or end. Costs time in proportion to what is {@link #held}.
   */
  public Robustness soFar() {
    if (network.first() != null || nowMicros == beginMicros) {
      return settled();
    }
    Network copy = network.copy();
    copy.finish(nowMicros, TraceEnd.OPEN);
    return firstOf(copy);
  }

  /**
   * The trace ends before the moment.
   *
   * @param micros later than the beginning
   * @return the robustness at the beginning
   */
  public Robustness finish(long micros, TraceEnd end) {
    if (micros <= beginMicros) {
      throw new IllegalArgumentException("micros=" + micros + " beginMicros=" + beginMicros);
    }
    advance(micros);
    network.finish(micros, end);
    finished = firstOf(network);
    return finished;
  }

  private static Robustness firstOf(Network network) {
    Robustness first = network.first();
    if (first == null) {
      throw new IllegalStateException("first=null");
    }
    return first;
  }

  /** Pieces of signals in memory. */
  public int held() {
    return network.held();
  }

  /** The robustness at every moment, of signals that are known as a whole and begin together. */
  public static Signal evaluate(
      Formula formula,
      Map<String, Signal> signals,
      long beginMicros,
      long endMicros,
      TraceEnd end) {
    Signal.Builder result = Signal.builder(beginMicros);
    LogicMonitor monitor =
        new LogicMonitor(formula, beginMicros, (from, to, value) -> result.until(to, value));
    Replay.of(signals, beginMicros, endMicros).into(monitor);
    monitor.finish(endMicros, end);
    return result.build();
  }
}
