package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.circuit.TransformerImpedance;
import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;

/** An equipment as nodes and branches; all installations of it begin with these. Immutable. */
final class EquipmentLayout {
  /** Of a closed switch or relay contact: common practice, no source. */
  private static final double CLOSED_OHMS = 0.02;

  /** What a cold fuse loses at its rated current, and a breaker: common practice, no source. */
  private static final double FUSE_VOLTS = 0.09;

  private static final double BREAKER_VOLTS = 0.3;

  private final Equipment equipment;
  private final Map<Point, Integer> nodes = new LinkedHashMap<>();

  /** One for each element, in their order. */
  private final List<Branch> branches = new ArrayList<>();

  private final Map<String, Integer> numbers;

  EquipmentLayout(Equipment equipment) {
    this.equipment = equipment;
    Map<String, Integer> loads = new HashMap<>();
    for (Load load : equipment.all(Load.class)) {
      loads.put(load.name(), loads.size());
    }
    for (Element e : equipment.elements()) {
      branches.add(branch(e, node(e.a()), node(e.b()), loads));
    }
    numbers = numbers(branches);
  }

  Equipment equipment() {
    return equipment;
  }

  /** In their order, numbered from 0. */
  Map<Point, Integer> nodes() {
    return nodes;
  }

  /** What is open in every state has none. */
  List<Branch> branches(Set<String> open) {
    if (open.isEmpty()) {
      return branches;
    }
    List<Branch> closed = new ArrayList<>();
    for (int i = 0; i < branches.size(); i++) {
      if (!open(equipment.elements().get(i), open)) {
        closed.add(branches.get(i));
      }
    }
    return closed;
  }

  private static Map<String, Integer> numbers(List<Branch> branches) {
    Map<String, Integer> numbers = new HashMap<>();
    for (int i = 0; i < branches.size(); i++) {
      numbers.putIfAbsent(branches.get(i).name(), i);
    }
    return numbers;
  }

  /** By name; the same where nothing is open. */
  Map<String, Integer> numbers(Set<String> open) {
    return open.isEmpty() ? numbers : numbers(branches(open));
  }

  private static boolean open(Element e, Set<String> open) {
    return e instanceof Transformer t
        ? open.contains(t.name()) || open.contains(t.breakerName())
        : (e instanceof Fuse || e instanceof Switch) && open.contains(e.name());
  }

  private static Branch branch(Element e, int a, int b, Map<String, Integer> loads) {
    if (e instanceof Transformer t) {
      return transformer(t, a, b);
    }
    if (e instanceof Load l) {
      int number = loads.getOrDefault(l.name(), Condition.NEVER);
      return branch(Kind.LOAD, l, a, b, number, l.inrush(), l.holding());
    }
    Complex closed = new Complex(CLOSED_OHMS);
    if (e instanceof Contact c) {
      Kind kind = c.normallyOpen() ? Kind.NORMALLY_OPEN : Kind.NORMALLY_CLOSED;
      int number = loads.getOrDefault(c.load(), Condition.NEVER);
      return branch(kind, c, a, b, number, closed, closed);
    }
    if (e instanceof Wire w) {
      return new Branch(Kind.WIRE, w.name(), a, b, LoopBuilder.copper(w.ohms()));
    }
    return e instanceof Fuse f
        ? new Branch(Kind.FUSE, f.name(), a, b, new Complex(coldOhms(f.kind(), f.ratedAmps())))
        : new Branch(Kind.SWITCH, e.name(), a, b, closed);
  }

  private static Branch branch(
      Kind kind, Element e, int a, int b, int number, Complex ohms, Complex otherwise) {
    return new Branch(kind, e.name(), a, b, number, Complex.ZERO, ohms, otherwise);
  }

  private static Branch transformer(Transformer t, int a, int b) {
    Complex ohms =
        TransformerImpedance.of(
            t.openVolts(), t.ratedVolts(), t.voltAmperes(), t.reactancePerResistance());
    if (t.breakerAmps() > 0) {
      ohms = ohms.add(coldOhms(FuseKind.BREAKER, t.breakerAmps()));
    }
    double phase = Math.toRadians(t.degrees());
    Complex volts = new Complex(t.openVolts() * Math.cos(phase), t.openVolts() * Math.sin(phase));
    return Branch.source(t.name(), a, b, volts, ohms);
  }

  private static double coldOhms(FuseKind kind, double ratedAmps) {
    return (kind == FuseKind.BREAKER ? BREAKER_VOLTS : FUSE_VOLTS) / ratedAmps;
  }

  private int node(Point p) {
    return nodes.computeIfAbsent(p, x -> nodes.size());
  }
}
