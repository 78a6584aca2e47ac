package bellwire.analysis.rules;

import bellwire.analysis.logic.Bounds;
import bellwire.analysis.logic.Formula;
import java.util.Arrays;
import java.util.Map;

/**
 * Evaluates formulas straight from their definitions over dense time, for signals that change at
 * whole numbers only and bounds that are whole. Cell 2k is the moment k, cell 2k + 1 all moments
 * between k and k + 1: a formula has one value in each. After the last cell nothing changes.
 */
final class GridWorld {
  private final Map<String, boolean[]> signals;
  private final int cells;

  GridWorld(Map<String, boolean[]> signals) {
    this.signals = signals;
    cells = signals.values().iterator().next().length;
  }

  /** Whether the rule's formula holds with its outermost operator over the moments before end. */
  boolean holds(Formula rule, int end) {
    Formula.Windowed outer = (Formula.Windowed) rule;
    boolean[] body = values(outer.operand());
    if (outer.quantifier() == Formula.Quantifier.EVENTUALLY) {
      return values(rule)[0];
    }
    for (int i = 0; i < 2 * end; i++) {
      if (!body[i]) {
        return false;
      }
    }
    return true;
  }

  /** Whether a formula holds at the beginning of an endless trace. */
  boolean holds(Formula formula) {
    return values(formula)[0];
  }

  private boolean[] values(Formula formula) {
    boolean[] v = new boolean[cells];
    if (formula instanceof Formula.Constant c) {
      Arrays.fill(v, c.holds());
    } else if (formula instanceof Formula.Atom a) {
      return signals.get(a.signal());
    } else if (formula instanceof Formula.Not n) {
      boolean[] a = values(n.operand());
      for (int i = 0; i < cells; i++) {
        v[i] = !a[i];
      }
    } else if (formula instanceof Formula.Joined j) {
      boolean[] a = values(j.left());
      boolean[] b = values(j.right());
      for (int i = 0; i < cells; i++) {
        v[i] =
            switch (j.connective()) {
              case AND -> a[i] && b[i];
              case OR -> a[i] || b[i];
              case IMPLIES -> !a[i] || b[i];
              case IFF -> a[i] == b[i];
              case XOR -> a[i] != b[i];
            };
      }
    } else if (formula instanceof Formula.Windowed w) {
      boolean[] a = values(w.operand());
      for (int i = 0; i < cells; i++) {
        v[i] = windowed(w, a, i);
      }
    } else if (formula instanceof Formula.Until u) {
      boolean[] a = values(u.left());
      boolean[] b = values(u.right());
      for (int i = 0; i < cells; i++) {
        v[i] = until(a, b, u.bounds(), i);
      }
    } else if (formula instanceof Formula.WeakUntil u) {
      boolean[] a = values(u.left());
      boolean[] b = values(u.right());
      for (int i = 0; i < cells; i++) {
        v[i] = until(a, b, u.bounds(), i) || throughout(a, i, to(u.bounds(), i));
      }
    } else if (formula instanceof Formula.Since s) {
      boolean[] a = values(s.left());
      boolean[] b = values(s.right());
      for (int i = 0; i < cells; i++) {
        v[i] = since(a, b, i);
      }
    } else if (formula instanceof Formula.Edge e) {
      boolean[] a = values(e.operand());
      for (int i = 0; i < cells; i++) {
        v[i] = a[i] == e.rise() && (i == 0 || a[i - 1] != e.rise());
      }
    }
    return v;
  }

  private int to(Bounds bounds, int i) {
    return bounds.bounded() ? (int) Math.min(cells - 1, i + 2 * bounds.toMicros()) : cells - 1;
  }

  private int from(Bounds bounds, int i) {
    return (int) Math.min(cells - 1, i + 2 * bounds.fromMicros());
  }

  private static boolean throughout(boolean[] a, int from, int to) {
    for (int k = from; k <= to; k++) {
      if (!a[k]) {
        return false;
      }
    }
    return true;
  }

  private boolean windowed(Formula.Windowed w, boolean[] a, int i) {
    boolean every = w.quantifier().every();
    int from = w.quantifier().future() ? from(w.bounds(), i) : 0;
    int to = w.quantifier().future() ? to(w.bounds(), i) : i;
    for (int k = from; k <= to; k++) {
      if (a[k] != every) {
        return !every;
      }
    }
    return every;
  }

  /** There is a later moment with b within the bounds, and a at all moments from now before it. */
  private boolean until(boolean[] a, boolean[] b, Bounds bounds, int i) {
    for (int j = from(bounds, i); j <= to(bounds, i); j++) {
      // Within an open cell other than one's own, some moments of that cell come before.
      int last = j % 2 == 1 && j > i ? j : j - 1;
      boolean own = j == i && bounds.fromMicros() == 0;
      if (b[j] && (own || throughout(a, i, last))) {
        return true;
      }
    }
    return false;
  }

  private boolean since(boolean[] a, boolean[] b, int i) {
    for (int j = i; j >= 0; j--) {
      int first = j % 2 == 1 && j < i ? j : j + 1;
      if (b[j] && throughout(a, first, i)) {
        return true;
      }
    }
    return false;
  }
}
