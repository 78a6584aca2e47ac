package bellwire.analysis.loop;

import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hipparchus.complex.Complex;
import org.jspecify.annotations.Nullable;

/** Lays an installation out as nodes and branches. What is open in every state has no branch. */
final class LoopBuilder {
  private static final double JUMPER_OHMS = 0.005;

  /** Below that no copper is: joints in a ring share a current by what they have at least. */
  private static final double LEAST_OHMS = 1e-4;

  /** Of a broken conductor's two parts, where no other conductor tells. */
  private static final double COPPER_OHMS = 0.5;

  private final Installation installation;
  private final Map<Point, Integer> nodes;
  private final List<Branch> branches;

  /**
   * @param equipment the installation's
   */
  LoopBuilder(Installation installation, EquipmentLayout equipment) {
    this.installation = installation;
    nodes = new LinkedHashMap<>(equipment.nodes());
    branches = new ArrayList<>(equipment.branches(installation.open()));
    layCable();
    for (Control.Jumper j : installation.plan().jumpers()) {
      Point a = new Point(j.side(), j.a());
      Point b = new Point(j.side(), j.b());
      add(Kind.JUMPER, "jumper " + j.a() + "-" + j.b(), a, b, new Complex(JUMPER_OHMS));
    }
    layControl();
  }

  Map<Point, Integer> nodes() {
    return nodes;
  }

  List<Branch> branches() {
    return branches;
  }

  private void layCable() {
    Cable cable = installation.cable();
    Map<String, LandingPlan.Landed> landed = new HashMap<>();
    for (LandingPlan.Landed l : installation.plan().landed()) {
      landed.put(l.conductor(), l);
    }
    Map<String, TreeMap<Double, Point>> bridged = new HashMap<>();
    for (Cable.Bridge bridge : cable.bridges()) {
      layBridge(bridge, landed, bridged);
    }
    for (Cable.Conductor c : cable.conductors()) {
      TreeMap<Double, Point> along = bridged.get(c.name());
      if (along == null && !c.broken()) {
        LandingPlan.Landed l = landed.get(c.name());
        add(Kind.CONDUCTOR, c.name(), near(c.name(), l), far(c.name(), l), copper(c.ohms()));
      } else {
        double ohms = c.broken() ? usualOhms(cable.conductors()) : c.ohms();
        layConductor(c, along == null ? ends(c.name(), landed) : along, ohms);
      }
    }
  }

  private void layBridge(
      Cable.Bridge bridge,
      Map<String, LandingPlan.Landed> landed,
      Map<String, TreeMap<Double, Point>> bridged) {
    String other = bridge.b();
    Point a = place(landed, bridged, bridge.a(), bridge.at());
    Point b = other == null ? Point.METAL : place(landed, bridged, other, bridge.at());
    if (Double.isFinite(bridge.ohms())) {
      String name = "touch " + bridge.a() + "-" + (other == null ? "metal" : other);
      add(Kind.TOUCH, name, a, b, copper(bridge.ohms()));
    }
  }

  private Point place(
      Map<String, LandingPlan.Landed> landed,
      Map<String, TreeMap<Double, Point>> bridged,
      String conductor,
      double at) {
    boolean known =
        installation.cable().conductors().stream().anyMatch(c -> c.name().equals(conductor));
    if (!known || !(at >= 0 && at <= 1)) {
      throw new IllegalArgumentException("conductor=" + conductor + " at=" + at);
    }
    return bridged
        .computeIfAbsent(conductor, x -> ends(x, landed))
        .computeIfAbsent(at, x -> new Point(Point.Side.CABLE, conductor + " at " + x));
  }

  /** By the fraction of the run from the near end. */
  private static TreeMap<Double, Point> ends(
      String conductor, Map<String, LandingPlan.Landed> landed) {
    TreeMap<Double, Point> along = new TreeMap<>();
    along.put(0.0, near(conductor, landed.get(conductor)));
    along.put(1.0, far(conductor, landed.get(conductor)));
    return along;
  }

  private static Point near(String conductor, LandingPlan.@Nullable Landed landed) {
    String terminal = landed == null ? null : landed.near();
    return terminal == null
        ? new Point(Point.Side.CABLE, conductor + ", free at the equipment")
        : Point.near(terminal);
  }

  private static Point far(String conductor, LandingPlan.@Nullable Landed landed) {
    String terminal = landed == null ? null : landed.far();
    return terminal == null
        ? new Point(Point.Side.CABLE, conductor + ", free at the control")
        : Point.far(terminal);
  }

  private static double usualOhms(List<Cable.Conductor> conductors) {
    return conductors.stream()
        .filter(c -> !c.broken())
        .mapToDouble(Cable.Conductor::ohms)
        .average()
        .orElse(COPPER_OHMS);
  }

  /** Copper between its places, by their distances; none where it is broken, theory (77). */
  private void layConductor(Cable.Conductor conductor, TreeMap<Double, Point> along, double ohms) {
    Map.Entry<Double, Point> last = along.firstEntry();
    for (Map.Entry<Double, Point> next : along.entrySet()) {
      boolean whole =
          !conductor.broken()
              || conductor.brokenAt() < last.getKey()
              || conductor.brokenAt() >= next.getKey() && next.getKey() < 1;
      node(next.getValue());
      if (next.getKey() > last.getKey() && whole) {
        double part = ohms * (next.getKey() - last.getKey());
        add(Kind.CONDUCTOR, conductor.name(), last.getValue(), next.getValue(), copper(part));
      }
      last = next;
    }
  }

  static Complex copper(double ohms) {
    return new Complex(Math.max(ohms, LEAST_OHMS));
  }

  private void layControl() {
    Control control = installation.control();
    for (int i = 0; i < control.contacts().size(); i++) {
      Control.ControlContact c = control.contacts().get(i);
      branches.add(
          new Branch(
              Kind.CONTROL_CONTACT,
              "contact " + c.supply() + "-" + c.terminal(),
              node(Point.far(c.supply())),
              node(Point.far(c.terminal())),
              i,
              Complex.ZERO,
              copper(c.ohms()),
              new Complex(c.leakOhms())));
    }
    Control.Supply supply = control.supply();
    String hot = supply.hot();
    String common = supply.common();
    if (hot == null) {
      return;
    }
    List<String> others =
        switch (supply.kind()) {
          case BATTERY -> List.of();
          case COMMON -> common == null ? List.of() : List.of(common);
          case STOLEN -> supply.through();
        };
    for (int i = 0; i < others.size(); i++) {
      int a = node(Point.far(hot));
      int b = node(Point.far(others.get(i)));
      Complex ohms = new Complex(supply.ohms());
      branches.add(new Branch(Kind.CONTROL, "the control", a, b, i, Complex.ZERO, ohms, ohms));
    }
  }

  private void add(Kind kind, String name, Point a, Point b, Complex ohms) {
    branches.add(new Branch(kind, name, node(a), node(b), ohms));
  }

  private int node(Point p) {
    Integer known = nodes.putIfAbsent(p, nodes.size());
    return known == null ? nodes.size() - 1 : known;
  }
}
