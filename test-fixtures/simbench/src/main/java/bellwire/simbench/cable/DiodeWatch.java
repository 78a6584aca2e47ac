package bellwire.simbench.cable;

import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Finds when a diode begins or ceases to conduct. Both its ends carry capacitance, so its voltage
 * never jumps and alone says which it does: above the forward voltage it conducts, below not.
 */
final class DiodeWatch {
  private static final long NEVER = WindowWatch.NEVER;

  /** Between its two changes, so that it does not chatter on rounding. */
  private static final double HYSTERESIS_VOLTS = 1e-4;

  private static final long RESOLUTION_NANOS = 20;

  /** How far ahead of a look to look, so that the next ones have nothing to do. */
  private static final long HORIZON_NANOS = 20_000_000;

  private final Probe[] across;
  private @Nullable Solution known;
  private long knownUntil;
  private long knownTurn;

  DiodeWatch(List<AttachedCircuit.Diode> diodes) {
    across = new Probe[diodes.size()];
    for (int d = 0; d < across.length; d++) {
      int anode = Topologies.observedAnode(d);
      across[d] = new Probe(anode, 1, anode + 1, -1, -diodes.get(d).volts());
    }
  }

  /** Whether there are none. */
  boolean none() {
    return across.length == 0;
  }

  /**
   * The first moment between two times at which a diode changes, or {@link WindowWatch#NEVER}.
   *
   * @param conducting bit d: diode d conducts up to then
   */
  long firstTurn(Solution solution, int conducting, long from, long to) {
    if (across.length == 0) {
      return NEVER;
    }
    if (solution != known || (knownTurn == NEVER && to > knownUntil)) {
      known = solution;
      knownUntil = to > Long.MAX_VALUE - HORIZON_NANOS ? NEVER : to + HORIZON_NANOS;
      knownTurn = NEVER;
      boolean quiet = true;
      for (int d = 0; d < across.length; d++) {
        boolean on = (conducting & 1 << d) != 0;
        if (!same(solution.bounds(across[d], from, NEVER), on)) {
          quiet = false;
          knownTurn = Math.min(knownTurn, first(solution, across[d], on, from, knownUntil));
        }
      }
      knownUntil = quiet ? NEVER : knownUntil;
    }
    return knownTurn <= to ? knownTurn : NEVER;
  }

  /** Which diodes conduct from a moment on. */
  int conducting(Solution solution, int before, long nanos) {
    int after = 0;
    for (int d = 0; d < across.length; d++) {
      boolean on = (before & 1 << d) != 0;
      double volts = solution.volts(across[d], nanos);
      after |= turned(volts, on) != on ? 1 << d : 0;
    }
    return after;
  }

  private static boolean turned(double volts, boolean on) {
    return on ? volts < -HYSTERESIS_VOLTS : volts > 0;
  }

  private static boolean same(Solution.Bounds bounds, boolean on) {
    return on ? bounds.low() >= -HYSTERESIS_VOLTS : bounds.high() <= 0;
  }

  private static long first(Solution solution, Probe probe, boolean on, long from, long to) {
    Solution.Bounds bounds = solution.bounds(probe, from, to);
    if (same(bounds, on)) {
      return NEVER;
    }
    if (turned(solution.volts(probe, from), on)) {
      return from;
    }
    if (to - from <= RESOLUTION_NANOS) {
      return turned(solution.volts(probe, to), on) ? to : NEVER;
    }
    long middle = from + (to - from) / 2;
    long left = first(solution, probe, on, from, middle);
    return left != NEVER ? left : first(solution, probe, on, middle, to);
  }
}
