package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.circuit.TransformerImpedance;
import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hipparchus.complex.Complex;
import org.jspecify.annotations.Nullable;

/** Lays an installation out as nodes and branches. What is open in every state has no branch. */
final class LoopBuilder {
  /** Of a closed switch or relay contact: common practice, no source. */
  private static final double CLOSED_OHMS = 0.02;

  private static final double JUMPER_OHMS = 0.005;

  /** What a cold fuse loses at its rated current, and a breaker: common practice, no source. */
  private static final double FUSE_VOLTS = 0.09;

  private static final double BREAKER_VOLTS = 0.3;

  /** Below that no copper is: joints in a ring share a current by what they have at least. */
  private static final double LEAST_OHMS = 1e-4;

  /** Of a broken conductor's two parts, where no other conductor tells. */
  private static final double COPPER_OHMS = 0.5;

  private final Installation installation;
  private final Map<Point, Integer> nodes = new LinkedHashMap<>();
  private final List<Branch> branches = new ArrayList<>();

  LoopBuilder(Installation installation) {
    this.installation = installation;
    layEquipment();
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

  private void layEquipment() {
    Equipment equipment = installation.equipment();
    Map<String, Integer> loads = new LinkedHashMap<>();
    for (Load load : equipment.all(Load.class)) {
      loads.put(load.name(), loads.size());
    }
    for (Element e : equipment.elements()) {
      node(e.a());
      node(e.b());
      if (e instanceof Transformer t) {
        layTransformer(t);
      } else if (e instanceof Load l) {
        add(Kind.LOAD, l, loads.getOrDefault(l.name(), Condition.NEVER), l.inrush(), l.holding());
      } else if (e instanceof Contact c) {
        Kind kind = c.normallyOpen() ? Kind.NORMALLY_OPEN : Kind.NORMALLY_CLOSED;
        Complex closed = new Complex(CLOSED_OHMS);
        add(kind, c, loads.getOrDefault(c.load(), Condition.NEVER), closed, closed);
      } else if (e instanceof Wire w) {
        add(Kind.WIRE, w.name(), w.a(), w.b(), copper(w.ohms()));
      } else if (!installation.open().contains(e.name())) {
        boolean fuse = e instanceof Fuse;
        double ohms = e instanceof Fuse f ? coldOhms(f.kind(), f.ratedAmps()) : CLOSED_OHMS;
        add(fuse ? Kind.FUSE : Kind.SWITCH, e.name(), e.a(), e.b(), new Complex(ohms));
      }
    }
  }

  private void layTransformer(Transformer t) {
    if (installation.open().contains(t.name()) || installation.open().contains(t.breakerName())) {
      return;
    }
    Complex ohms =
        TransformerImpedance.of(
            t.openVolts(), t.ratedVolts(), t.voltAmperes(), t.reactancePerResistance());
    if (t.breakerAmps() > 0) {
      ohms = ohms.add(coldOhms(FuseKind.BREAKER, t.breakerAmps()));
    }
    double phase = Math.toRadians(t.degrees());
    Complex volts = new Complex(t.openVolts() * Math.cos(phase), t.openVolts() * Math.sin(phase));
    branches.add(Branch.source(t.name(), node(t.a()), node(t.b()), volts, ohms));
  }

  private static double coldOhms(FuseKind kind, double ratedAmps) {
    return (kind == FuseKind.BREAKER ? BREAKER_VOLTS : FUSE_VOLTS) / ratedAmps;
  }

  private void layCable() {
    Cable cable = installation.cable();
    Map<String, LandingPlan.Landed> landed = new LinkedHashMap<>();
    for (LandingPlan.Landed l : installation.plan().landed()) {
      landed.put(l.conductor(), l);
    }
    Map<String, TreeMap<Double, Point>> places = new LinkedHashMap<>();
    for (Cable.Conductor c : cable.conductors()) {
      LandingPlan.Landed l =
          landed.getOrDefault(c.name(), new LandingPlan.Landed(c.name(), null, null));
      TreeMap<Double, Point> along = new TreeMap<>();
      along.put(0.0, end(Point.Side.NEAR, l.near(), c.name() + ", free at the equipment"));
      along.put(1.0, end(Point.Side.FAR, l.far(), c.name() + ", free at the control"));
      places.put(c.name(), along);
    }
    for (Cable.Bridge bridge : cable.bridges()) {
      String other = bridge.b();
      Point a = place(places, bridge.a(), bridge.at());
      Point b = other == null ? Point.METAL : place(places, other, bridge.at());
      if (Double.isFinite(bridge.ohms())) {
        String name = "touch " + bridge.a() + "-" + (other == null ? "metal" : other);
        add(Kind.TOUCH, name, a, b, copper(bridge.ohms()));
      }
    }
    double usual =
        cable.conductors().stream()
            .filter(c -> !c.broken())
            .mapToDouble(Cable.Conductor::ohms)
            .average()
            .orElse(COPPER_OHMS);
    for (Cable.Conductor c : cable.conductors()) {
      layConductor(c, places.get(c.name()), c.broken() ? usual : c.ohms());
    }
  }

  private static Point end(Point.Side side, @Nullable String terminal, String free) {
    return terminal == null ? new Point(Point.Side.CABLE, free) : new Point(side, terminal);
  }

  private static Point place(
      Map<String, TreeMap<Double, Point>> places, String conductor, double at) {
    TreeMap<Double, Point> along = places.get(conductor);
    if (along == null || !(at >= 0 && at <= 1)) {
      throw new IllegalArgumentException("conductor=" + conductor + " at=" + at);
    }
    return along.computeIfAbsent(at, x -> new Point(Point.Side.CABLE, conductor + " at " + x));
  }

  /** Copper between its places, by their distances; none where it is broken, theory (77). */
  private void layConductor(
      Cable.Conductor conductor, @Nullable TreeMap<Double, Point> along, double ohms) {
    if (along == null) {
      return;
    }
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

  private static Complex copper(double ohms) {
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

  private void add(Kind kind, Element e, int number, Complex ohms, Complex otherwise) {
    branches.add(
        new Branch(
            kind, e.name(), node(e.a()), node(e.b()), number, Complex.ZERO, ohms, otherwise));
  }

  private void add(Kind kind, String name, Point a, Point b, Complex ohms) {
    branches.add(new Branch(kind, name, node(a), node(b), ohms));
  }

  private int node(Point p) {
    return nodes.computeIfAbsent(p, x -> nodes.size());
  }
}
