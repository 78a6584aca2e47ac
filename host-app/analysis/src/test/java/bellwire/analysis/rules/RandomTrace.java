package bellwire.analysis.rules;

import bellwire.analysis.logic.Formula;
import bellwire.analysis.logic.LogicMonitor;
import bellwire.analysis.logic.TraceEnd;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** A trace of the four facts with edges within intervals, and worlds that it may come from. */
final class RandomTrace {
  private record Edge(int fact, Truth truth, int earliest, int latest) {}

  final int end;
  private final Random random;
  private final Truth[] initial = new Truth[4];
  private final List<Edge> edges = new ArrayList<>();

  /**
   * @param unit all interval ends are multiples of it
   * @param widest of an edge's interval, in units; 0: exact
   */
  RandomTrace(Random random, int unit, int widest, boolean unknown) {
    this(random, unit, widest, unknown, 1);
  }

  /**
   * @param apart least units between the beginnings of a fact's edges' intervals
   */
  RandomTrace(Random random, int unit, int widest, boolean unknown, int apart) {
    this.random = random;
    end = unit * (1 + random.nextInt(30));
    int busy = 2 + random.nextInt(10);
    for (int fact = 0; fact < 4; fact++) {
      Truth now = Truth.of(random.nextBoolean());
      initial[fact] = now;
      int at = 0;
      while (true) {
        at += apart + random.nextInt(busy);
        if (unit * at > end + unit) {
          break;
        }
        int latest = at + (random.nextInt(3) == 0 ? 0 : random.nextInt(widest + 1));
        Truth before = now;
        now = unknown && random.nextInt(4) == 0 ? Truth.UNKNOWN : other(now);
        if (now != before) {
          edges.add(new Edge(fact, now, unit * at, unit * latest));
        }
      }
    }
    edges.sort(Comparator.comparingInt(Edge::earliest));
  }

  private Truth other(Truth now) {
    return now == Truth.UNKNOWN ? Truth.of(random.nextBoolean()) : now.not();
  }

  Ruling run(Rule rule, double clockPpm) {
    return run(rule, clockPpm, Track.MOST_NODES);
  }

  Ruling run(Rule rule, double clockPpm, int mostNodes) {
    RuleMonitor monitor = new RuleMonitor(List.of(rule), RandomRules.FACTS, clockPpm, mostNodes);
    for (int fact = 0; fact < 4; fact++) {
      monitor.change(fact, initial[fact], 0, 0);
    }
    for (Edge edge : edges) {
      monitor.advance(Math.min(edge.earliest(), end));
      monitor.change(edge.fact(), edge.truth(), edge.earliest(), edge.latest());
    }
    return monitor.finish(end).get(0);
  }

  /** The verdict of the logic's own monitor on a trace whose edges are exact. */
  bellwire.analysis.logic.Verdict follow(Formula formula) {
    LogicMonitor monitor = new LogicMonitor(formula, 0);
    for (int fact = 0; fact < 4; fact++) {
      tell(monitor, fact, initial[fact], 0);
    }
    for (Edge edge : edges) {
      if (edge.earliest() < end) {
        tell(monitor, edge.fact(), edge.truth(), edge.earliest());
      }
    }
    return monitor.finish(end, TraceEnd.PENDING).verdict();
  }

  private static void tell(LogicMonitor monitor, int fact, Truth truth, long micros) {
    int signal = monitor.number(RandomRules.FACTS.get(fact));
    if (signal >= 0) {
      monitor.change(signal, micros, truth == Truth.TRUE);
    }
  }

  /**
   * One world; after the trace's end anything happens.
   *
   * @return null where the edges drawn are out of order
   */
  GridWorld world() {
    int cells = 2 * (end + 45);
    Map<String, boolean[]> signals = new HashMap<>();
    int manner = random.nextInt(6);
    int calm = end + random.nextInt(40);
    for (int fact = 0; fact < 4; fact++) {
      boolean[] signal = new boolean[cells];
      if (!draw(fact, signal, manner)) {
        return null;
      }
      extend(signal, calm);
      signals.put(RandomRules.FACTS.get(fact), signal);
    }
    return new GridWorld(signals);
  }

  private boolean draw(int fact, boolean[] signal, int manner) {
    Truth now = initial[fact];
    int from = 0;
    for (Edge edge : edges) {
      if (edge.fact() == fact) {
        int at = place(edge, manner);
        at = Math.max(at, from + 1);
        if (at > edge.latest()) {
          return false;
        }
        fill(signal, now, from, Math.min(at, end));
        from = at;
        now = edge.truth();
      }
    }
    fill(signal, now, from, end);
    return true;
  }

  private int place(Edge edge, int manner) {
    int width = edge.latest() - edge.earliest();
    int inner = edge.earliest() + random.nextInt(width + 1);
    return switch (manner) {
      case 0 -> edge.earliest();
      case 1 -> edge.latest();
      case 2 -> random.nextBoolean() ? edge.earliest() : edge.latest();
      case 3 -> Math.min(edge.latest(), edge.earliest() + random.nextInt(2));
      default -> inner;
    };
  }

  private void fill(boolean[] signal, Truth truth, int from, int to) {
    boolean value = truth == Truth.TRUE || truth == Truth.UNKNOWN && random.nextBoolean();
    int often = 1 + random.nextInt(6);
    for (int k = from; k < to; k++) {
      if (truth == Truth.UNKNOWN && k > from && random.nextInt(often) == 0) {
        value = !value;
      }
      signal[2 * k] = value;
      signal[2 * k + 1] = value;
    }
  }

  /** Anything for a while, then constant for good. */
  private void extend(boolean[] signal, int calm) {
    boolean value = random.nextInt(3) == 0 ? random.nextBoolean() : signal[2 * end - 1];
    for (int k = end; 2 * k < signal.length; k++) {
      if (k <= calm && random.nextInt(8) == 0) {
        value = random.nextBoolean();
      }
      signal[2 * k] = value;
      signal[2 * k + 1] = value;
    }
  }

  @Override
  public String toString() {
    return "end=" + end + " initial=" + List.of(initial) + " edges=" + edges;
  }
}
