package bellwire.analysis.landing;

import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Transformer;
import bellwire.analysis.loop.Wire;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Pairs of points that a technician puts a meter on. */
final class MeterPoints {

  /** Two points, and how they are called. */
  record Pair(Point a, Point b, String words) {}

  private MeterPoints() {}

  /**
   * At the equipment every common against every terminal, and every two hots; at the control its
   * common, or lacking one its hots, against every terminal; every coil behind the terminals.
   */
  static Set<Pair> of(Installation intended) {
    Set<Pair> pairs = new LinkedHashSet<>();
    Equipment equipment = intended.equipment();
    Set<String> hots = new LinkedHashSet<>();
    Set<String> commons = new LinkedHashSet<>();
    for (Transformer t : equipment.all(Transformer.class)) {
      hots.addAll(terminalsBehind(equipment, t.a()));
      commons.addAll(terminalsBehind(equipment, t.b()));
    }
    for (String common : commons) {
      equipment.terminals().forEach(t -> add(pairs, Point.near(t), Point.near(common)));
    }
    List<String> inOrder = new ArrayList<>(hots);
    for (int i = 0; i < inOrder.size(); i++) {
      for (int j = i + 1; j < inOrder.size(); j++) {
        add(pairs, Point.near(inOrder.get(i)), Point.near(inOrder.get(j)));
      }
    }
    atControl(intended, pairs);
    for (Load load : equipment.all(Load.class)) {
      pairs.add(new Pair(load.a(), load.b(), "the two leads of the " + load.name()));
    }
    return pairs;
  }

  private static void atControl(Installation intended, Set<Pair> pairs) {
    Set<String> references = new LinkedHashSet<>();
    String common = intended.control().supply().common();
    if (common != null) {
      references.add(common);
    } else {
      for (ControlContact c : intended.control().contacts()) {
        references.add(c.supply());
      }
    }
    for (String reference : references) {
      for (String terminal : intended.control().terminals()) {
        add(pairs, Point.far(terminal), Point.far(reference));
      }
    }
  }

  private static void add(Set<Pair> pairs, Point a, Point b) {
    if (!a.equals(b)) {
      String where = a.side() == Point.Side.NEAR ? " at the equipment" : " at the control";
      pairs.add(new Pair(a, b, a.name() + " and " + b.name() + where));
    }
  }

  /** Terminals that copper, fuses and closed switches join to a point. */
  private static Set<String> terminalsBehind(Equipment equipment, Point from) {
    Set<Point> reached = new LinkedHashSet<>(List.of(from));
    Deque<Point> next = new ArrayDeque<>(reached);
    while (!next.isEmpty()) {
      Point here = next.remove();
      for (Element e : equipment.elements()) {
        boolean joins = e instanceof Wire || e instanceof Fuse || e instanceof Switch;
        if (joins && (e.a().equals(here) || e.b().equals(here))) {
          Point other = e.a().equals(here) ? e.b() : e.a();
          if (!other.equals(Point.METAL) && reached.add(other)) {
            next.add(other);
          }
        }
      }
    }
    Set<String> terminals = new LinkedHashSet<>();
    reached.stream()
        .filter(p -> p.side() == Point.Side.NEAR)
        .filter(p -> equipment.terminals().contains(p.name()))
        .forEach(p -> terminals.add(p.name()));
    return terminals;
  }
}
