package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Wire;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What is joined in one state without a load between: the loop less its loads and transformers.
 * Where a transformer's two ends are joined in it, it is shorted.
 */
final class Copper {
  /** A touch of more than this is a leakage: it shorts nothing, and may still hold a load. */
  static final double TOUCH_OHMS = 10;

  /** A joint between two points, and what makes it. */
  record Joint(String name, Point a, Point b, double ohms) {
    Point other(Point from) {
      return from.equals(a) ? b : a;
    }
  }

  private final Map<Point, List<Joint>> joints = new HashMap<>();

  private Copper() {}

  static Copper of(Installation of, StateResult in) {
    Copper copper = new Copper();
    for (Element element : of.equipment().elements()) {
      boolean closed = closed(element, of, in);
      if (closed) {
        double ohms = element instanceof Wire wire ? wire.ohms() : 0;
        copper.join(element.name(), element.a(), element.b(), ohms);
      }
    }
    copper.joinCable(of);
    for (Control.Jumper jumper : of.plan().jumpers()) {
      copper.join(
          "jumper " + jumper.a() + "-" + jumper.b(),
          new Point(jumper.side(), jumper.a()),
          new Point(jumper.side(), jumper.b()),
          0);
    }
    if (in.lit()) {
      copper.joinContacts(of, in.state());
    }
    return copper;
  }

  private static boolean closed(Element element, Installation of, StateResult in) {
    if (element instanceof Fuse || element instanceof Switch) {
      return !of.open().contains(element.name());
    }
    if (element instanceof Contact contact) {
      return contact.normallyOpen() == on(in, contact.load());
    }
    return element instanceof Wire;
  }

  private static boolean on(StateResult in, String load) {
    for (StateResult.LoadResult l : in.loads()) {
      if (l.load().name().equals(load)) {
        return l.energised() == StateResult.Energised.ON;
      }
    }
    return false;
  }

  private void joinCable(Installation of) {
    Map<String, LandingPlan.Landed> landed = new HashMap<>();
    for (LandingPlan.Landed l : of.plan().landed()) {
      landed.put(l.conductor(), l);
    }
    for (LandingPlan.Landed l : of.plan().landed()) {
      Cable.Conductor conductor = of.cable().conductor(l.conductor());
      if (!conductor.broken()) {
        join(l.conductor(), nearEnd(l), farEnd(l), conductor.ohms());
      }
    }
    for (Cable.Bridge bridge : of.cable().bridges()) {
      if (bridge.ohms() > TOUCH_OHMS) {
        continue;
      }
      String other = bridge.b();
      Point a = along(of, landed, bridge.a(), bridge.at());
      Point b = other == null ? Point.METAL : along(of, landed, other, bridge.at());
      String name = "touch " + bridge.a() + "-" + (other == null ? "metal" : other);
      join(name, a, b, bridge.ohms());
    }
  }

  /** The end that a bridge is taken to be at: the nearer, as a conductor is one piece of copper. */
  private static Point along(
      Installation of, Map<String, LandingPlan.Landed> landed, String conductor, double at) {
    LandingPlan.Landed l =
        landed.getOrDefault(conductor, new LandingPlan.Landed(conductor, null, null));
    return at <= 0.5 ? nearEnd(l) : farEnd(l);
  }

  static Point nearEnd(LandingPlan.Landed l) {
    String near = l.near();
    return near == null
        ? new Point(Point.Side.CABLE, l.conductor() + ", free at the equipment")
        : Point.near(near);
  }

  static Point farEnd(LandingPlan.Landed l) {
    String far = l.far();
    return far == null
        ? new Point(Point.Side.CABLE, l.conductor() + ", free at the control")
        : Point.far(far);
  }

  private void joinContacts(Installation of, Control.State state) {
    for (Control.Closing closing : state.closes()) {
      if (!closing.under(of.plan().settings())) {
        continue;
      }
      for (Control.ControlContact contact : of.control().contacts()) {
        if (contact.terminal().equals(closing.terminal())) {
          join(
              "contact " + contact.supply() + "-" + contact.terminal(),
              Point.far(contact.supply()),
              Point.far(contact.terminal()),
              contact.ohms());
        }
      }
    }
  }

  private void join(String name, Point a, Point b, double ohms) {
    Joint joint = new Joint(name, a, b, ohms);
    joints.computeIfAbsent(a, p -> new ArrayList<>()).add(joint);
    joints.computeIfAbsent(b, p -> new ArrayList<>()).add(joint);
  }

  boolean joined(Point a, Point b) {
    return a.equals(b) || from(a, j -> true).containsKey(b);
  }

  /** Whether the two are joined without bare metal between. */
  boolean joinedOffMetal(Point a, Point b) {
    return a.equals(b)
        || from(a, j -> !j.a().equals(Point.METAL) && !j.b().equals(Point.METAL)).containsKey(b);
  }

  /** Everything joined to a point, itself included. */
  Set<Point> joinedTo(Point a) {
    Set<Point> all = new HashSet<>(from(a, j -> true).keySet());
    all.add(a);
    return all;
  }

  /** The joints from one point to another, fewest first; empty where there is no way. */
  List<Joint> way(Point from, Point to) {
    Map<Point, Joint> reached = from(from, j -> true);
    List<Joint> way = new ArrayList<>();
    for (Point at = to; !at.equals(from); ) {
      Joint joint = reached.get(at);
      if (joint == null) {
        return List.of();
      }
      way.add(joint);
      at = joint.other(at);
    }
    Collections.reverse(way);
    return way;
  }

  /** By which joint each point is reached. */
  private Map<Point, Joint> from(Point start, Predicate<Joint> through) {
    Map<Point, Joint> reached = new HashMap<>();
    Deque<Point> next = new ArrayDeque<>(List.of(start));
    while (!next.isEmpty()) {
      Point at = next.remove();
      for (Joint joint : joints.getOrDefault(at, List.of())) {
        Point to = joint.other(at);
        if (!to.equals(start) && through.test(joint) && reached.putIfAbsent(to, joint) == null) {
          next.add(to);
        }
      }
    }
    return reached;
  }
}
