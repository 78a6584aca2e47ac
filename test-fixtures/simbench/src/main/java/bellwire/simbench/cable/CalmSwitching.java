package bellwire.simbench.cable;

import bellwire.simbench.circuit.LinearSystem;
import bellwire.simbench.circuit.ModalSystem;
import bellwire.simbench.circuit.Phases;
import bellwire.simbench.circuit.Solution;
import java.util.Arrays;

/**
 * Edges of the crosspoint that cannot set the interlock's latch, kept as a list until somebody
 * looks at the copper. That is known of a pair of words once it has been gone through exactly, with
 * as much to spare as the tones' phases could change, and where the first word's circuit has come
 * to rest before the second. A port may leave its window for less than the latch notices: its
 * neighbours' fall takes it along. A touch vigil makes such edges by the million.
 */
final class CalmSwitching {
  private static final int WORDS = 32;

  /** Edges kept; before the oldest of them the circuit is forgotten. */
  private static final int KEPT = 64;

  /** A circuit is at rest where its slowest mode has gone down by exp(−this). */
  private static final double REST = 14;

  /** For what is then still left of it. */
  private static final double SPARE_VOLTS = 0.02;

  /** Goes through an edge as it is. */
  interface Edge {
    void at(long word, long nanos);
  }

  private final long[] words = new long[WORDS];
  private final ModalSystem[] systems = new ModalSystem[WORDS];
  private final long[] restNanos = new long[WORDS];
  private final long[][] insideAfter = new long[WORDS][WORDS];
  private final WindowWatch watch;
  private int known;

  /** In place of a time: not yet known, and not calm. */
  private static final long UNKNOWN = -2;

  private static final long RESTLESS = WindowWatch.RESTLESS;

  private int inForce = -1;
  private long insideFromNanos = Long.MIN_VALUE;
  private long inForceNanos;
  private final int[] edges = new int[KEPT];
  private final long[] edgeNanos = new long[KEPT];
  private long taken;

  CalmSwitching(WindowWatch watch) {
    this.watch = watch;
  }

  /** From when on every port is inside its window again, after the last edge. */
  long insideFromNanos() {
    return insideFromNanos;
  }

  /** The circuit has changed otherwise: what was learnt holds no more. */
  void forget() {
    known = 0;
    inForce = -1;
    taken = 0;
    insideFromNanos = Long.MIN_VALUE;
  }

  /** Whether edges are waiting to be gone through. */
  boolean waiting() {
    return taken > 0;
  }

  /** Keeps an edge for later, where it is known to be calm. */
  boolean take(long word, long nanos) {
    if (inForce < 0 || nanos - inForceNanos < restNanos[inForce]) {
      return false;
    }
    int next = find(word, inForce + 1);
    if (next < 0 || insideAfter[inForce][next] < 0) {
      return false;
    }
    insideFromNanos = nanos + insideAfter[inForce][next];
    int slot = (int) (taken % KEPT);
    edges[slot] = next;
    edgeNanos[slot] = nanos;
    taken++;
    inForce = next;
    inForceNanos = nanos;
    return true;
  }

  private int find(long word, int likely) {
    if (likely < known && words[likely] == word) {
      return likely;
    }
    for (int i = 0; i < known; i++) {
      if (words[i] == word) {
        return i;
      }
    }
    return -1;
  }

  /**
   * An edge has been gone through exactly: is such a one calm?
   *
   * @param before what was in force, up to the edge
   * @return whether the latch cannot be set under {@code after}
   */
  boolean learn(
      long wordBefore, Solution before, long word, Solution after, WindowWatch.Window window) {
    int from = number(wordBefore, before.system());
    int to = number(word, after.system());
    inForce = to;
    inForceNanos = after.startNanos();
    if (after.startNanos() - before.startNanos() < restNanos[from]) {
      return false;
    }
    if (insideAfter[from][to] == UNKNOWN) {
      insideAfter[from][to] = insideAfter(before.system(), after, window);
    }
    if (insideAfter[from][to] == RESTLESS) {
      return false;
    }
    insideFromNanos = after.startNanos() + insideAfter[from][to];
    return true;
  }

  private long insideAfter(ModalSystem before, Solution after, WindowWatch.Window window) {
    if (!(before instanceof LinearSystem was)
        || !(after.system() instanceof LinearSystem is)
        || was.order() != is.order()) {
      return RESTLESS;
    }
    long longest = 0;
    for (int p = 0; p < Nodes.PORTS; p++) {
      // Another phase may move it from one end of the reach to the other.
      double spare = 2 * Phases.reachVolts(was, is, WindowWatch.terminal(p)) + SPARE_VOLTS;
      long inside = watch.insideAfter(after, p, window, spare);
      if (inside == RESTLESS) {
        return RESTLESS;
      }
      longest = Math.max(longest, inside);
    }
    return longest;
  }

  private int number(long word, ModalSystem system) {
    int found = find(word, 0);
    if (found >= 0 && systems[found] == system) {
      return found;
    }
    if (found >= 0 || known == WORDS) {
      forget();
    }
    int number = known++;
    words[number] = word;
    systems[number] = system;
    restNanos[number] = (long) Math.min(1e18, REST * 1e9 / system.slowest());
    Arrays.fill(insideAfter[number], UNKNOWN);
    for (int i = 0; i < WORDS; i++) {
      insideAfter[i][number] = UNKNOWN;
    }
    return number;
  }

  /**
   * Goes through the edges that wait, in order.
   *
   * @param base told first where older edges are forgotten: the circuit in force before the oldest
   *     kept, at rest
   */
  void replay(Base base, Edge edge) {
    long first = 0;
    if (taken > KEPT) {
      first = taken - KEPT + 1;
      int slot = (int) ((first - 1) % KEPT);
      base.at(words[edges[slot]], systems[edges[slot]], edgeNanos[slot]);
    }
    long count = taken;
    taken = 0;
    for (long i = first; i < count; i++) {
      int slot = (int) (i % KEPT);
      edge.at(words[edges[slot]], edgeNanos[slot]);
    }
  }

  /** Begins with a circuit from nothing. */
  interface Base {
    void at(long word, ModalSystem system, long nanos);
  }
}
