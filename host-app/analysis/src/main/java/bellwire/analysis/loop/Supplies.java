package bellwire.analysis.loop;

import java.util.ArrayList;
import java.util.List;

/**
 * How two transformers are joined in a state, theory (75) and (76).
 *
 * @param circulatingAmps what flows from one through the other and back with every load taken away,
 *     A rms; 0 unless {@link Joined#circulates}
 * @param overMetal whether bare metal is part of the joint
 */
public record Supplies(
    Transformer a, Transformer b, Joined joined, double circulatingAmps, boolean overMetal) {
  /** Ways of being joined, by copper without a load. */
  public enum Joined {
    APART,
    /** Hot end to hot end, commons isolated: nothing circulates. */
    HOTS,
    /** Common to common only: nothing circulates. */
    COMMONS,
    /** One's hot end to the other's common only: in series; nothing circulates. */
    IN_SERIES,
    /** In a ring, their voltages opposing one another in it: only their difference drives. */
    IN_PHASE,
    /** In a ring, their voltages adding up in it. */
    OPPOSED,
    /** In a ring, from different phases of the mains. */
    OTHER_PHASE;

    public boolean circulates() {
      return compareTo(IN_PHASE) >= 0;
    }
  }

  /** A touch of more is no joint. */
  private static final double TOUCH_OHMS = 10;

  private static final double SAME_PHASE_DEGREES = 1e-6;

  static List<Supplies> all(LoopCircuit circuit, Installation of, Condition condition) {
    List<Transformer> transformers = of.equipment().all(Transformer.class);
    List<Supplies> pairs = new ArrayList<>();
    for (int i = 0; i < transformers.size(); i++) {
      for (int j = i + 1; j < transformers.size(); j++) {
        pairs.add(pair(circuit, condition, transformers.get(i), transformers.get(j)));
      }
    }
    return pairs;
  }

  private static Supplies pair(
      LoopCircuit circuit, Condition condition, Transformer a, Transformer b) {
    Joined joined = joined(circuit.groups(condition, TOUCH_OHMS, true), circuit, a, b);
    Joined offMetal = joined(circuit.groups(condition, TOUCH_OHMS, false), circuit, a, b);
    double amps = joined.circulates() ? circulating(circuit, condition, a, b) : 0;
    return new Supplies(a, b, joined, amps, joined != offMetal);
  }

  private static Joined joined(int[] group, LoopCircuit circuit, Transformer a, Transformer b) {
    int hotA = group[circuit.node(a.a())];
    int commonA = group[circuit.node(a.b())];
    int hotB = group[circuit.node(b.a())];
    int commonB = group[circuit.node(b.b())];
    boolean alike = hotA == hotB && commonA == commonB;
    boolean crossed = hotA == commonB && commonA == hotB;
    if (alike || crossed) {
      return inRing(a.degrees() - b.degrees() + (alike ? 0 : 180));
    }
    if (hotA == commonB || commonA == hotB) {
      return Joined.IN_SERIES;
    }
    return hotA == hotB ? Joined.HOTS : commonA == commonB ? Joined.COMMONS : Joined.APART;
  }

  private static Joined inRing(double degrees) {
    double apart = Math.abs(Math.IEEEremainder(degrees, 360));
    return apart < SAME_PHASE_DEGREES
        ? Joined.IN_PHASE
        : apart > 180 - SAME_PHASE_DEGREES ? Joined.OPPOSED : Joined.OTHER_PHASE;
  }

  /** Without loads, and without other transformers. */
  private static double circulating(
      LoopCircuit circuit, Condition condition, Transformer a, Transformer b) {
    int first = circuit.branch(a.name());
    int second = circuit.branch(b.name());
    if (first < 0 || second < 0) {
      return 0;
    }
    Solved solved =
        circuit.solve(
            condition, i -> i == first || i == second || circuit.branches().get(i).kind().copper());
    return Math.min(solved.amps(first), solved.amps(second));
  }
}
