package bellwire.analysis.loop;

import bellwire.analysis.circuit.Circuit;
import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;

/** An installation as a circuit, solved once for each condition. Not for several threads. */
final class LoopCircuit {
  private static final IntPredicate ALL = i -> true;

  private final Map<Point, Integer> nodes;
  private final List<Point> points;
  private final List<Branch> branches;

  /** For each of the control's ways of getting power, the contacts that end it when closed. */
  private final long[] endedBy;

  /** Numbers of the equipment's branches, which come first. */
  private final Map<String, Integer> ofEquipment;

  private final Circuit circuit = new Circuit(0);
  private final Map<Condition, Solved> solved = new HashMap<>();

  LoopCircuit(Installation installation) {
    this(installation, new EquipmentLayout(installation.equipment()));
  }

  /**
   * @param equipment the installation's
   */
  LoopCircuit(Installation installation, EquipmentLayout equipment) {
    LoopBuilder builder = new LoopBuilder(installation, equipment);
    nodes = builder.nodes();
    points = List.copyOf(nodes.keySet());
    branches = builder.branches();
    List<Control.ControlContact> contacts = installation.control().contacts();
    endedBy =
        installation.control().supply().kind() == Control.Supply.Kind.STOLEN
            ? installation.control().supply().through().stream()
                .mapToLong(t -> closing(contacts, t))
                .toArray()
            : new long[1];
    ofEquipment = equipment.numbers(installation.open());
    int loads = branchesOf(Kind.LOAD).length;
    if (loads > Condition.MOST || contacts.size() > Condition.MOST) {
      throw new IllegalArgumentException("loads=" + loads + " contacts=" + contacts.size());
    }
  }

  /** The contacts to a terminal, as {@link Condition#closed}. */
  static long closing(List<Control.ControlContact> contacts, String terminal) {
    long mask = 0;
    for (int i = 0; i < contacts.size(); i++) {
      if (contacts.get(i).terminal().equals(terminal)) {
        mask |= 1L << i;
      }
    }
    return mask;
  }

  List<Branch> branches() {
    return branches;
  }

  int[] branchesOf(Kind kind) {
    int[] such = new int[branches.size()];
    int count = 0;
    for (int i = 0; i < such.length; i++) {
      if (branches.get(i).kind() == kind) {
        such[count++] = i;
      }
    }
    return Arrays.copyOf(such, count);
  }

  /** −1 where an element does not conduct in any state. */
  int branch(String name) {
    Integer known = ofEquipment.get(name);
    if (known != null) {
      return known;
    }
    for (int i = ofEquipment.size(); i < branches.size(); i++) {
      if (branches.get(i).name().equals(name)) {
        return i;
      }
    }
    return -1;
  }

  /** By node. */
  List<Point> points() {
    return points;
  }

  /**
   * Which nodes copper joins: they have the same number.
   *
   * @param metal whether bare metal joins too
   */
  int[] groups(Condition condition, double mostTouchOhms, boolean metal) {
    int[] group = IntStream.range(0, nodes.size()).toArray();
    int bare = metal ? -1 : node(Point.METAL);
    for (Branch b : branches) {
      int from = group[b.a()];
      int to = group[b.b()];
      if (b.a() != bare && b.b() != bare && from != to && joins(b, condition, mostTouchOhms)) {
        for (int n = 0; n < group.length; n++) {
          group[n] = group[n] == from ? to : group[n];
        }
      }
    }
    return group;
  }

  /** The branches that join without a load; an open contact's leakage and a light touch do not. */
  List<Joint> joints(Condition condition, double mostTouchOhms) {
    List<Joint> joints = new ArrayList<>();
    for (Branch b : branches) {
      if (joins(b, condition, mostTouchOhms)) {
        double ohms = ohms(b, condition).norm();
        joints.add(new Joint(b.name(), points.get(b.a()), points.get(b.b()), ohms));
      }
    }
    return joints;
  }

  private boolean joins(Branch b, Condition condition, double mostTouchOhms) {
    return switch (b.kind()) {
      case TRANSFORMER, LOAD, CONTROL -> false;
      case TOUCH -> b.ohms().norm() <= mostTouchOhms;
      case CONTROL_CONTACT -> condition.closed(b.number());
      default -> !ohms(b, condition).isInfinite();
    };
  }

  /** −1 for a point with no copper. */
  int node(Point point) {
    return nodes.getOrDefault(point, -1);
  }

  /** What was solved so far. */
  Set<Condition> conditions() {
    return Set.copyOf(solved.keySet());
  }

  Solved solve(Condition condition) {
    Solved known = solved.get(condition);
    if (known == null) {
      known = solve(condition, ALL);
      solved.put(condition, known);
    }
    return known;
  }

  /** With some branches only. */
  Solved solve(Condition condition, IntPredicate branch) {
    circuit.clear(points.size());
    int[] elements = new int[branches.size()];
    for (int i = 0; i < elements.length; i++) {
      Branch b = branches.get(i);
      elements[i] = branch.test(i) ? lay(b, ohms(b, condition)) : -1;
    }
    return new Solved(branches, circuit.solve(), elements);
  }

  private int lay(Branch b, Complex ohms) {
    if (ohms.isInfinite()) {
      return -1;
    }
    return b.kind() == Kind.TRANSFORMER
        ? circuit.source(b.a(), b.b(), b.openVolts(), ohms)
        : circuit.impedance(b.a(), b.b(), ohms);
  }

  /** Infinite where it does not conduct. */
  Complex ohms(Branch b, Condition c) {
    return switch (b.kind()) {
      case LOAD -> c.pulledIn(b.number()) ? b.otherwise() : b.ohms();
      case NORMALLY_OPEN -> c.pulledIn(b.number()) ? b.ohms() : Branch.NOTHING;
      case NORMALLY_CLOSED -> c.pulledIn(b.number()) ? Branch.NOTHING : b.ohms();
      case CONTROL_CONTACT -> c.closed(b.number()) ? b.ohms() : b.otherwise();
      case CONTROL -> c.ends(endedBy[b.number()]) ? Branch.NOTHING : b.ohms().multiply(ways(c));
      default -> b.ohms();
    };
  }

  private int ways(Condition c) {
    int ways = 0;
    for (long contacts : endedBy) {
      ways += c.ends(contacts) ? 0 : 1;
    }
    return ways;
  }
}
