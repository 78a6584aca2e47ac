package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Atom;
import bellwire.analysis.logic.Formula.Constant;
import bellwire.analysis.logic.Formula.Edge;
import bellwire.analysis.logic.Formula.Joined;
import bellwire.analysis.logic.Formula.Not;
import bellwire.analysis.logic.Formula.Since;
import bellwire.analysis.logic.Formula.Threshold;
import bellwire.analysis.logic.Formula.Until;
import bellwire.analysis.logic.Formula.WeakUntil;
import bellwire.analysis.logic.Formula.Windowed;
import java.util.IdentityHashMap;
import java.util.Map;

/**
 * The definitions of docs/temporal-logic.md, sections 3 to 5, word for word: every microsecond of a
 * trace, every moment of a window, no algorithm. Shares nothing with the monitor but the formulas
 * and the signals.
 */
public final class SlowEvaluator {

  private static final double INF = Double.POSITIVE_INFINITY;

  private final Map<String, Signal> signals;
  private final long begin;
  private final long stop;
  private final TraceEnd end;
  private final Map<Formula, double[][]> known = new IdentityHashMap<>();
  private final Map<WeakUntil, Formula> holding = new IdentityHashMap<>();

  public SlowEvaluator(Map<String, Signal> signals, long begin, long stop, TraceEnd end) {
    this.signals = signals;
    this.begin = begin;
    this.stop = stop;
    this.end = end;
  }

  public Robustness at(Formula formula, long t) {
    double[] bounds = rho(formula, t);
    return new Robustness(bounds[0], bounds[1]);
  }

  /** Low and high; beyond the trace's end everything is possible. */
  private double[] rho(Formula f, long t) {
    if (t >= stop) {
      return new double[] {-INF, INF};
    }
    double[][] values = known.computeIfAbsent(f, any -> new double[(int) (stop - begin)][]);
    int place = (int) (t - begin);
    if (values[place] == null) {
      values[place] = define(f, t);
    }
    return values[place];
  }

  private double[] define(Formula f, long t) {
    if (f instanceof Constant c) {
      return c.holds() ? new double[] {INF, INF} : new double[] {-INF, -INF};
    } else if (f instanceof Atom a) {
      Robustness value = signals.get(a.signal()).at(t);
      return new double[] {value.low(), value.high()};
    } else if (f instanceof Threshold h) {
      Robustness value = signals.get(h.signal()).at(t);
      return h.relation().upward()
          ? new double[] {value.low() - h.limit(), value.high() - h.limit()}
          : new double[] {h.limit() - value.high(), h.limit() - value.low()};
    } else if (f instanceof Not n) {
      return not(rho(n.operand(), t));
    } else if (f instanceof Joined j) {
      return join(j, rho(j.left(), t), rho(j.right(), t));
    } else if (f instanceof Windowed w) {
      return window(w, t);
    } else if (f instanceof Until u) {
      return until(u.left(), u.bounds(), u.right(), t);
    } else if (f instanceof WeakUntil u) {
      Bounds reach = new Bounds(0, u.bounds().toMicros());
      Formula holds = holding.computeIfAbsent(u, any -> Formula.always(reach, u.left()));
      return or(rho(holds, t), until(u.left(), u.bounds(), u.right(), t));
    } else if (f instanceof Since s) {
      return since(s, t);
    } else if (f instanceof Edge e) {
      if (t == begin) {
        return new double[] {-INF, -INF};
      }
      double[] now = rho(e.operand(), t);
      double[] ago = rho(e.operand(), t - 1);
      return e.rise() ? and(now, not(ago)) : and(not(now), ago);
    }
    throw new IllegalArgumentException("formula=" + f);
  }

  private static double[] not(double[] a) {
    return new double[] {-a[1], -a[0]};
  }

  private static double[] and(double[] a, double[] b) {
    return new double[] {Math.min(a[0], b[0]), Math.min(a[1], b[1])};
  }

  private static double[] or(double[] a, double[] b) {
    return new double[] {Math.max(a[0], b[0]), Math.max(a[1], b[1])};
  }

  private static double[] join(Joined j, double[] a, double[] b) {
    return switch (j.connective()) {
      case AND -> and(a, b);
      case OR -> or(a, b);
      case IMPLIES -> or(not(a), b);
      case IFF -> iff(a, b);
      case XOR -> not(iff(a, b));
    };
  }

  private static double[] iff(double[] a, double[] b) {
    double low = and(or(not(a), b), or(a, not(b)))[0];
    double high = or(and(a, b), and(not(a), not(b)))[1];
    return new double[] {low, high};
  }

  private boolean beyondIsUnknown(Bounds bounds) {
    return end == TraceEnd.OPEN || (end == TraceEnd.PENDING && bounds.bounded());
  }

  /** Last moment of a window that is looked at: cut off, or far enough to meet the unknown. */
  private long last(Bounds bounds, long t) {
    long to = bounds.bounded() ? t + bounds.toMicros() : Long.MAX_VALUE;
    return Math.min(to, beyondIsUnknown(bounds) ? stop + bounds.fromMicros() : stop - 1);
  }

  private double[] window(Windowed w, long t) {
    boolean every = w.quantifier().every();
    double[] result = every ? new double[] {INF, INF} : new double[] {-INF, -INF};
    Bounds bounds = w.bounds();
    long from = t + bounds.fromMicros();
    long to = last(bounds, t);
    if (!w.quantifier().future()) {
      from = bounds.bounded() ? Math.max(begin, t - bounds.toMicros()) : begin;
      to = t - bounds.fromMicros();
    }
    for (long i = from; i <= to; i++) {
      double[] value = rho(w.operand(), i);
      result = every ? and(result, value) : or(result, value);
    }
    return result;
  }

  private double[] until(Formula left, Bounds bounds, Formula right, long t) {
    double[] result = {-INF, -INF};
    for (long i = t + bounds.fromMicros(); i <= last(bounds, t); i++) {
      double[] witness = rho(right, i);
      for (long k = t; k < i; k++) {
        witness = and(witness, rho(left, k));
      }
      result = or(result, witness);
    }
    return result;
  }

  private double[] since(Since s, long t) {
    double[] result = {-INF, -INF};
    Bounds bounds = s.bounds();
    long from = bounds.bounded() ? Math.max(begin, t - bounds.toMicros()) : begin;
    for (long i = from; i <= t - bounds.fromMicros(); i++) {
      double[] witness = rho(s.right(), i);
      for (long k = i + 1; k <= t; k++) {
        witness = and(witness, rho(s.left(), k));
      }
      result = or(result, witness);
    }
    return result;
  }
}
