package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One thing wrong with a cable.
 *
 * @param kind what it is
 * @param ports the conductor; where it can't be told which of several that touch, all of them
 * @param others what it touches or leaks to; empty for an open or a joint
 * @param place fraction of the run from the near end; null where nothing was measured that tells
 * @param ohms of the joint or between the two; null for an open
 */
public record Fault(
    Kind kind,
    List<Integer> ports,
    List<Integer> others,
    @Nullable Quantity place,
    @Nullable Quantity ohms) {

  public Fault {
    ports = List.copyOf(ports);
    others = List.copyOf(others);
  }

  /** Kinds of fault that the inference tells apart. */
  public enum Kind {
    /** No path along the conductor. */
    OPEN,
    /** Resistance in series: a bad clamp, a splice, a nick. */
    JOINT,
    /** A path to another conductor or to metal, from copper on copper to a leakage. */
    BRIDGE
  }

  static Fault open(int port, @Nullable Quantity place) {
    return new Fault(Kind.OPEN, List.of(port), List.of(), place, null);
  }

  static Fault joint(int port, @Nullable Quantity place, @Nullable Quantity ohms) {
    return new Fault(Kind.JOINT, List.of(port), List.of(), place, ohms);
  }

  static Fault bridge(
      List<Integer> ports,
      List<Integer> others,
      @Nullable Quantity place,
      @Nullable Quantity ohms) {
    return new Fault(Kind.BRIDGE, ports, others, place, ohms);
  }

  /** Whether both say that the same thing is wrong with the same ports, wherever and how large. */
  public boolean sameAs(Fault other) {
    return kind == other.kind
        && ((ports.equals(other.ports) && others.equals(other.others))
            || (ports.equals(other.others) && others.equals(other.ports)));
  }
}
