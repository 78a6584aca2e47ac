package bellwire.analysis.landing;

import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Point;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What is joined in one state without a load between: where a transformer's two ends are, it is
 * shorted.
 */
final class Copper {
  /** A touch of more than this is a leakage: it shorts nothing, and may still hold a load; CP. */
  static final double TOUCH_OHMS = 10;

  private final Map<Point, List<Joint>> joints = new HashMap<>();

  Copper(List<Joint> all) {
    for (Joint joint : all) {
      joints.computeIfAbsent(joint.a(), p -> new ArrayList<>()).add(joint);
      joints.computeIfAbsent(joint.b(), p -> new ArrayList<>()).add(joint);
    }
  }

  boolean joined(Point a, Point b) {
    return a.equals(b) || from(a).containsKey(b);
  }

  /** The joints from one point to another, fewest first; empty where there is no way. */
  List<Joint> way(Point from, Point to) {
    Map<Point, Joint> reached = from(from);
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
  private Map<Point, Joint> from(Point start) {
    Map<Point, Joint> reached = new HashMap<>();
    Deque<Point> next = new ArrayDeque<>(List.of(start));
    while (!next.isEmpty()) {
      Point at = next.remove();
      for (Joint joint : joints.getOrDefault(at, List.of())) {
        Point to = joint.other(at);
        if (!to.equals(start) && reached.putIfAbsent(to, joint) == null) {
          next.add(to);
        }
      }
    }
    return reached;
  }
}
