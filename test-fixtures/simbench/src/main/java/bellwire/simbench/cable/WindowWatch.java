package bellwire.simbench.cable;

import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The seventeen window comparators: finds when a terminal has been outside its window for as long
 * as the latch takes to notice. A search halves the time until a bound decides, so that quiet hours
 * cost one look.
 */
final class WindowWatch {
  static final long NEVER = Long.MAX_VALUE;
  private static final long RESOLUTION_NANOS = 1000;
  private static final long INSIDE = -1;

  /** In place of a time: the latch may be set. */
  static final long RESTLESS = -1;

  private static final Probe[] TERMINALS = new Probe[Nodes.PORTS];

  static {
    for (int p = 0; p < Nodes.PORTS; p++) {
      TERMINALS[p] = Probe.node(p);
    }
  }

  /** Lowest and highest voltage that is not foreign. */
  record Window(double low, double high) {}

  /** How far ahead of a look to look, so that the next ones have nothing to do. */
  private static final long HORIZON_NANOS = 20_000_000;

  private static final int ALL = (1 << Nodes.PORTS) - 1;

  private final long detectNanos;
  private final long[] outsideSince = new long[Nodes.PORTS];
  private @Nullable Solution known;
  private @Nullable Window knownWindow;
  private int quiet;
  private long insideUntil;

  WindowWatch(long detectNanos) {
    this.detectNanos = detectNanos;
    reset();
  }

  /** All comparators inside. */
  void reset() {
    Arrays.fill(outsideSince, INSIDE);
    known = null;
  }

  /**
   * When the latch is set between two times, or {@link #NEVER}. To be called for stretches that
   * follow on one another.
   */
  long firstTrip(Solution solution, Window window, long from, long to) {
    if (allInside(solution, window, from, to)) {
      return NEVER;
    }
    long trip = NEVER;
    for (int p = 0; p < Nodes.PORTS; p++) {
      if (outsideSince[p] != INSIDE || (quiet & 1 << p) == 0) {
        trip = Math.min(trip, portTrip(solution, p, window, from, Math.min(to, trip)));
      }
    }
    return trip;
  }

  /**
   * Whether no comparator is outside at any moment of a stretch, as far as a look at the bounds
   * tells. What one look finds out serves those after it: a port that can never leave its window
   * again under this solution is not looked at any more, nor is any before {@code insideUntil}.
   */
  boolean allInside(Solution solution, Window window, long from, long to) {
    if (solution != known || !window.equals(knownWindow)) {
      known = solution;
      knownWindow = window;
      quiet = 0;
      insideUntil = Long.MIN_VALUE;
    }
    for (long since : outsideSince) {
      if (since != INSIDE) {
        return false;
      }
    }
    if (quiet == ALL || to <= insideUntil) {
      return true;
    }
    boolean inside = true;
    for (int p = 0; p < Nodes.PORTS; p++) {
      if ((quiet & 1 << p) == 0) {
        if (within(solution, p, window, from, NEVER)) {
          quiet |= 1 << p;
        } else {
          inside &= first(solution, p, window, from, to + HORIZON_NANOS, true) == NEVER;
        }
      }
    }
    if (inside) {
      insideUntil = to + HORIZON_NANOS;
    }
    return inside;
  }

  private long portTrip(Solution solution, int p, Window window, long from, long to) {
    long at = from;
    while (true) {
      if (outsideSince[p] == INSIDE) {
        long left = first(solution, p, window, at, to, true);
        if (left == NEVER) {
          return NEVER;
        }
        outsideSince[p] = left;
        at = left;
      }
      long latch = outsideSince[p] + detectNanos;
      long back = first(solution, p, window, at, Math.min(to, latch), false);
      if (back == NEVER) {
        return latch <= to ? latch : NEVER;
      }
      outsideSince[p] = INSIDE;
      at = back;
      if (at >= to) {
        return NEVER;
      }
    }
  }

  /** First moment outside (or inside) the window, to a microsecond. */
  private static long first(
      Solution solution, int p, Window window, long from, long to, boolean outside) {
    Solution.Bounds bounds = solution.bounds(TERMINALS[p], from, to);
    boolean allInside = bounds.low() >= window.low() && bounds.high() <= window.high();
    boolean allOutside = bounds.high() < window.low() || bounds.low() > window.high();
    if (outside ? allInside : allOutside) {
      return NEVER;
    }
    if (outside ? allOutside : allInside) {
      return from;
    }
    if (to - from <= RESOLUTION_NANOS) {
      return outside(solution, p, window, to) == outside ? to : NEVER;
    }
    long middle = from + (to - from) / 2;
    long left = first(solution, p, window, from, middle, outside);
    return left != NEVER ? left : first(solution, p, window, middle, to, outside);
  }

  static Probe terminal(int port) {
    return TERMINALS[port];
  }

  /**
   * How long after a solution's start a port is inside for ever, all stays outside before that
   * being too short for the latch; or {@link #RESTLESS}.
   *
   * @param spareVolts by which the window is narrower at both ends
   */
  long insideAfter(Solution solution, int p, Window window, double spareVolts) {
    Window narrow = new Window(window.low() + spareVolts, window.high() - spareVolts);
    double decayNanos = 41e9 / solution.system().slowest();
    if (!(decayNanos < 1e9) || narrow.low() >= narrow.high()) {
      return RESTLESS;
    }
    long start = solution.startNanos();
    long decayed = start + (long) decayNanos + 1;
    long at = start;
    while (true) {
      long out = first(solution, p, narrow, at, decayed, true);
      if (out == NEVER) {
        return within(solution, p, narrow, decayed, NEVER) ? at - start : RESTLESS;
      }
      at = first(solution, p, narrow, out, decayed, false);
      if (at == NEVER || at - out > detectNanos - 4 * RESOLUTION_NANOS) {
        return RESTLESS;
      }
      at += 2 * RESOLUTION_NANOS;
    }
  }

  /** Whether it is known that no port can leave its window any more under this solution. */
  boolean calm(Solution solution, Window window) {
    return solution == known && window.equals(knownWindow) && quiet == ALL && allBack();
  }

  private boolean allBack() {
    for (long since : outsideSince) {
      if (since != INSIDE) {
        return false;
      }
    }
    return true;
  }

  /**
   * That has been found out elsewhere.
   *
   * @return false where a port is still outside from before
   */
  boolean takeForCalm(Solution solution, Window window) {
    if (!allBack()) {
      return false;
    }
    known = solution;
    knownWindow = window;
    quiet = ALL;
    return true;
  }

  private static boolean within(Solution solution, int p, Window window, long from, long to) {
    Solution.Bounds bounds = solution.bounds(TERMINALS[p], from, to);
    return bounds.low() >= window.low() && bounds.high() <= window.high();
  }

  private static boolean outside(Solution solution, int p, Window window, long nanos) {
    double volts = solution.volts(TERMINALS[p], nanos);
    return volts < window.low() || volts > window.high();
  }

  /** Ports outside at a moment, bit 0 = P1. */
  static int outside(Solution solution, Window window, long nanos) {
    int mask = 0;
    for (int p = 0; p < Nodes.PORTS; p++) {
      if (outside(solution, p, window, nanos)) {
        mask |= 1 << p;
      }
    }
    return mask;
  }

  /** Ports outside at any moment of a stretch, among those not yet known. */
  static int everOutside(Solution solution, Window window, long from, long to, int known) {
    int mask = known;
    for (int p = 0; p < Nodes.PORTS; p++) {
      if ((known & 1 << p) == 0 && first(solution, p, window, from, to, true) != NEVER) {
        mask |= 1 << p;
      }
    }
    return mask;
  }
}
