package bellwire.analysis.loop;

import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.List;

/**
 * Where loads, contacts and the control's supply come to, theory (70) to (74). Loads move in tens
 * of milliseconds, a control goes blank or comes up in more: its supply is asked once the loads are
 * at rest.
 */
final class FixPoint {
  /** Loads with hysteresis go round in a few steps; more are taken as no rest. */
  private static final int MOST_STEPS = 200;

  /** What loads and control are doing. */
  private record Stand(boolean lit, long pulledIn) {}

  /**
   * One of the conditions that are taken in turn for ever; a single one where all comes to rest.
   */
  record Phase(boolean lit, Condition condition, Solved solved, double controlVolts) {}

  private final LoopCircuit circuit;
  private final Control.Supply supply;
  private final List<Load> loads;

  /** The branch of each load. */
  private final int[] loadBranches;

  private final int[] controlBranches;

  FixPoint(LoopCircuit circuit, Installation installation) {
    this.circuit = circuit;
    supply = installation.control().supply();
    loads = installation.equipment().all(Load.class);
    loadBranches = circuit.branchesOf(Kind.LOAD);
    controlBranches = circuit.branchesOf(Kind.CONTROL);
  }

  /** From a dark control and no load pulled in. */
  List<Phase> fromRest(long closes) {
    return settle(closes, new Stand(false, 0));
  }

  /** From a lit control and every load pulled in. */
  List<Phase> fromAllPulledIn(long closes) {
    return settle(closes, new Stand(true, (1L << loads.size()) - 1));
  }

  private List<Phase> settle(long closes, Stand start) {
    List<Stand> ring = ring(closes, start, false);
    if (ring.size() > 1) {
      ring = ring(closes, ring.get(0), true);
    }
    return ring.stream().map(s -> phase(closes, s)).toList();
  }

  /** The stands that come back for ever. */
  private List<Stand> ring(long closes, Stand start, boolean oneByOne) {
    List<Stand> seen = new ArrayList<>();
    Stand now = start;
    while (seen.size() < MOST_STEPS) {
      seen.add(now);
      now = next(closes, now, oneByOne);
      int before = seen.indexOf(now);
      if (before >= 0) {
        return seen.subList(before, seen.size());
      }
    }
    return seen.subList(MOST_STEPS / 2, MOST_STEPS);
  }

  private Stand next(long closes, Stand stand, boolean oneByOne) {
    Phase phase = phase(closes, stand);
    long changed = stand.pulledIn() ^ pulledIn(phase.solved(), stand.pulledIn());
    if (changed != 0) {
      long moved = oneByOne ? Long.lowestOneBit(changed) : changed;
      return new Stand(stand.lit(), stand.pulledIn() ^ moved);
    }
    boolean lit =
        supply.kind() == Control.Supply.Kind.BATTERY || phase.controlVolts() >= supply.leastVolts();
    return new Stand(lit, stand.pulledIn());
  }

  /** Theory (70). */
  private long pulledIn(Solved solved, long before) {
    long after = 0;
    for (int i = 0; i < loadBranches.length; i++) {
      Load load = loads.get(i);
      boolean in = (before >>> i & 1) != 0;
      double least = in ? load.holdInVolts() : load.pickUpVolts();
      if (solved.volts(loadBranches[i]) >= least) {
        after |= 1L << i;
      }
    }
    return after;
  }

  private Phase phase(long closes, Stand stand) {
    Condition condition = new Condition(stand.lit() ? closes : 0, stand.pulledIn());
    Solved solved = circuit.solve(condition);
    return new Phase(stand.lit(), condition, solved, controlVolts(condition, solved));
  }

  /**
   * What the control lives on, theory (73). Where it steals power, and the ways that are not called
   * give too little, it opens a call for an instant: then the loads have not moved yet.
   */
  private double controlVolts(Condition condition, Solved solved) {
    if (supply.kind() == Control.Supply.Kind.BATTERY) {
      return Double.NaN;
    }
    double volts = mostVolts(solved, solved);
    if (volts < supply.leastVolts() && supply.kind() == Control.Supply.Kind.STOLEN) {
      Solved opened = circuit.solve(new Condition(0, condition.pulledIn()));
      volts = Math.max(volts, mostVolts(opened, solved));
    }
    return volts;
  }

  /** Over its ways, ended ones as they are opened. */
  private double mostVolts(Solved opened, Solved solved) {
    double volts = 0;
    for (int branch : controlBranches) {
      volts = Math.max(volts, (solved.conducts(branch) ? solved : opened).volts(branch));
    }
    return volts;
  }
}
