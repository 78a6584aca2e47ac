package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.circuit.TransformerImpedance;
import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.hipparchus.complex.Complex;
import org.jspecify.annotations.Nullable;

/**
 * An installation in one condition as SPICE text, from what its records mean and from nothing that
 * the simulation computes with; the usual ohms of closed contacts are stated here once more. Every
 * island is tied to SPICE's ground at its first node.
 */
final class InstallationNetlist {
  private static final double HERTZ = 60;
  private static final double CLOSED_OHMS = 0.02;
  private static final double JUMPER_OHMS = 0.005;
  private static final double LEAST_OHMS = 1e-4;

  /**
   * A piece of it.
   *
   * @param middle SPICE's node behind its resistance, at its first end
   */
  record Piece(String name, Point a, Point b, double resistance, String middle) {}

  private final Installation of;
  private final Condition condition;
  private final String prefix;
  private final StringBuilder text;
  private final Map<Point, String> nodes = new LinkedHashMap<>();
  private final Map<Point, Point> leader = new LinkedHashMap<>();
  private final List<Piece> pieces = new ArrayList<>();

  /**
   * @param prefix of every name in the text, letters and digits
   */
  InstallationNetlist(Installation of, Condition condition, String prefix, StringBuilder text) {
    this.of = of;
    this.condition = condition;
    this.prefix = prefix;
    this.text = text;
    equipment();
    cable();
    of.plan()
        .jumpers()
        .forEach(
            j ->
                resistor(
                    "jumper " + j.a() + "-" + j.b(),
                    new Point(j.side(), j.a()),
                    new Point(j.side(), j.b()),
                    JUMPER_OHMS));
    control();
    tie();
  }

  /** SPICE's analysis that the text is written for. */
  static String analysis() {
    return ".ac lin 1 " + HERTZ + " " + HERTZ + "\n";
  }

  List<Piece> pieces() {
    return pieces;
  }

  /** Whether it has a piece there. */
  boolean has(Point point) {
    return nodes.containsKey(point);
  }

  boolean joined(Point a, Point b) {
    return find(a).equals(find(b));
  }

  Complex volts(Map<String, Complex> spice, Point point) {
    return at(spice, node(point));
  }

  /** From a piece's first end to its second. */
  Complex amps(Map<String, Complex> spice, Piece piece) {
    return at(spice, node(piece.a()))
        .subtract(at(spice, piece.middle()))
        .divide(piece.resistance());
  }

  private static Complex at(Map<String, Complex> spice, String node) {
    Complex volts = spice.get(node);
    if (volts == null) {
      throw new IllegalArgumentException("node=" + node);
    }
    return volts;
  }

  private void equipment() {
    List<Load> loads = of.equipment().all(Load.class);
    for (Element e : of.equipment().elements()) {
      if (of.open().contains(e.name())) {
        continue;
      }
      if (e instanceof Transformer t) {
        transformer(t);
      } else if (e instanceof Fuse f) {
        resistor(f.name(), f.a(), f.b(), coldOhms(f.kind(), f.ratedAmps()));
      } else if (e instanceof Switch s) {
        resistor(s.name(), s.a(), s.b(), CLOSED_OHMS);
      } else if (e instanceof Wire w) {
        resistor(w.name(), w.a(), w.b(), Math.max(w.ohms(), LEAST_OHMS));
      } else if (e instanceof Load l) {
        boolean in = condition.pulledIn(loads.indexOf(l));
        impedance(l.name(), l.a(), l.b(), in ? l.holding() : l.inrush(), 0, 0);
      } else if (e instanceof Contact c) {
        boolean in =
            loads.stream()
                .anyMatch(l -> l.name().equals(c.load()) && condition.pulledIn(loads.indexOf(l)));
        if (in == c.normallyOpen()) {
          resistor(c.name(), c.a(), c.b(), CLOSED_OHMS);
        }
      }
    }
  }

  private void transformer(Transformer t) {
    if (of.open().contains(t.name() + "'s breaker")) {
      return;
    }
    Complex z =
        TransformerImpedance.of(
            t.openVolts(), t.ratedVolts(), t.voltAmperes(), t.reactancePerResistance());
    double breaker = t.breakerAmps() > 0 ? coldOhms(FuseKind.BREAKER, t.breakerAmps()) : 0;
    impedance(t.name(), t.a(), t.b(), z.add(breaker), t.openVolts(), t.degrees());
  }

  /** 90 mV at a fuse's, 300 mV at a breaker's rated current. */
  private static double coldOhms(FuseKind kind, double ratedAmps) {
    return (kind == FuseKind.BREAKER ? 0.3 : 0.09) / ratedAmps;
  }

  private void cable() {
    for (Conductor c : of.cable().conductors()) {
      TreeSet<Double> places = new TreeSet<>(List.of(0.0, 1.0));
      for (Bridge bridge : of.cable().bridges()) {
        if (bridge.a().equals(c.name()) || c.name().equals(bridge.b())) {
          places.add(bridge.at());
        }
      }
      double ohms =
          c.broken()
              ? of.cable().conductors().stream()
                  .filter(o -> !o.broken())
                  .mapToDouble(Conductor::ohms)
                  .average()
                  .orElse(0.5)
              : c.ohms();
      double from = 0;
      for (double to : places.tailSet(0.0, false)) {
        boolean cut = c.broken() && c.brokenAt() >= from && (c.brokenAt() < to || to == 1);
        if (!cut) {
          double part = Math.max(ohms * (to - from), LEAST_OHMS);
          resistor(c.name(), along(c.name(), from), along(c.name(), to), part);
        }
        from = to;
      }
    }
    for (Bridge bridge : of.cable().bridges()) {
      String b = bridge.b();
      resistor(
          "touch " + bridge.a() + "-" + (b == null ? "metal" : b),
          along(bridge.a(), bridge.at()),
          b == null ? Point.METAL : along(b, bridge.at()),
          Math.max(bridge.ohms(), LEAST_OHMS));
    }
  }

  private Point along(String conductor, double at) {
    if (at > 0 && at < 1) {
      return new Point(Side.CABLE, conductor + " at " + at);
    }
    boolean near = at == 0;
    for (Landed l : of.plan().landed()) {
      String terminal = near ? l.near() : l.far();
      if (l.conductor().equals(conductor) && terminal != null) {
        return near ? Point.near(terminal) : Point.far(terminal);
      }
    }
    return new Point(Side.CABLE, conductor + ", free at the " + (near ? "equipment" : "control"));
  }

  private void control() {
    List<ControlContact> contacts = of.control().contacts();
    for (int i = 0; i < contacts.size(); i++) {
      ControlContact c = contacts.get(i);
      double ohms = condition.closed(i) ? Math.max(c.ohms(), LEAST_OHMS) : c.leakOhms();
      if (Double.isFinite(ohms)) {
        resistor(
            "contact " + c.supply() + "-" + c.terminal(),
            Point.far(c.supply()),
            Point.far(c.terminal()),
            ohms);
      }
    }
    Supply supply = of.control().supply();
    if (supply.kind() == Supply.Kind.COMMON) {
      power(supply, supply.common(), 1);
    } else if (supply.kind() == Supply.Kind.STOLEN) {
      List<String> uncalled =
          supply.through().stream()
              .filter(
                  t ->
                      contacts.stream()
                          .noneMatch(
                              c -> c.terminal().equals(t) && condition.closed(contacts.indexOf(c))))
              .toList();
      uncalled.forEach(t -> power(supply, t, uncalled.size()));
    }
  }

  private void power(Supply supply, @Nullable String other, int ways) {
    if (supply.hot() != null && other != null) {
      resistor("the control", Point.far(supply.hot()), Point.far(other), supply.ohms() * ways);
    }
  }

  private void resistor(String name, Point a, Point b, double ohms) {
    impedance(name, a, b, new Complex(ohms), 0, 0);
  }

  private void impedance(
      String name, Point a, Point b, Complex z, double openVolts, double degrees) {
    String element = prefix + "e" + pieces.size();
    String from = node(a);
    String to = node(b);
    leader.put(find(a), find(b));
    boolean inductive = z.getImaginaryPart() != 0;
    boolean source = openVolts > 0;
    String middle = inductive || source ? element + "m" : to;
    String behind = source && inductive ? element + "s" : to;
    line("R", element, from, middle, String.valueOf(z.getRealPart()));
    if (inductive) {
      double henry = z.getImaginaryPart() / (2 * Math.PI * HERTZ);
      line("L", element, middle, behind, String.valueOf(henry));
    }
    if (source) {
      String first = inductive ? behind : middle;
      line("V", element, first, to, "DC 0 AC " + openVolts + " " + degrees);
    }
    pieces.add(new Piece(name, a, b, z.getRealPart(), middle));
  }

  private void line(String kind, String element, String from, String to, String value) {
    text.append(kind).append(element).append(' ').append(from).append(' ').append(to);
    text.append(' ').append(value).append('\n');
  }

  private String node(Point point) {
    leader.putIfAbsent(point, point);
    return nodes.computeIfAbsent(point, p -> prefix + "n" + nodes.size());
  }

  private Point find(Point point) {
    Point p = point;
    for (Point next = leader.get(p); next != null && !next.equals(p); next = leader.get(p)) {
      p = next;
    }
    return p;
  }

  private void tie() {
    for (Point point : nodes.keySet()) {
      if (find(point).equals(point)) {
        line("R", prefix + "tie" + nodes.get(point), node(point), "0", "1");
      }
    }
  }
}
