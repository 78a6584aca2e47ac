package bellwire.analysis.landing;

import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Ways of a current in words, conductor by conductor. */
final class Ways {
  private Ways() {}

  /** From a transformer's hot end along joints. */
  static List<String> names(Transformer from, List<Joint> way) {
    List<String> names = new ArrayList<>();
    names.add(from.name());
    along(names, from.a(), way);
    return names;
  }

  private static Point along(List<String> names, Point start, List<Joint> way) {
    Point at = start;
    add(names, at);
    for (Joint joint : way) {
      names.add(joint.name());
      at = joint.other(at);
      add(names, at);
    }
    return at;
  }

  /** Along joints from a point. */
  static List<String> along(Point start, List<Joint> way) {
    List<String> names = new ArrayList<>();
    along(names, start, way);
    return names;
  }

  private static void add(List<String> names, Point at) {
    boolean terminal =
        at.side() == Point.Side.NEAR
            || at.side() == Point.Side.FAR
            || at.side() == Point.Side.METAL;
    if (terminal) {
      names.add(at.words());
    }
  }

  /** A load's current, from a transformer's hot end to its common; empty where none feeds it. */
  static List<String> of(Scene scene, Load load) {
    List<String> flowing = scene.simulation.path(scene.result.state(), load.name());
    if (!flowing.isEmpty()) {
      return flowing;
    }
    Copper copper = scene.copper();
    for (Transformer t : scene.transformers()) {
      for (boolean turned : new boolean[] {false, true}) {
        Point in = turned ? load.b() : load.a();
        Point out = turned ? load.a() : load.b();
        if (copper.joined(t.a(), in) && copper.joined(out, t.b())) {
          List<String> names = names(t, copper.way(t.a(), in));
          names.add(load.name());
          along(names, out, copper.way(out, t.b()));
          return names;
        }
      }
    }
    return List.of();
  }

  /** Joints and terminals along the way. */
  static List<String> places(List<Joint> way) {
    Set<String> places = new LinkedHashSet<>();
    for (Joint joint : way) {
      places.add(joint.name());
    }
    return List.copyOf(places);
  }
}
