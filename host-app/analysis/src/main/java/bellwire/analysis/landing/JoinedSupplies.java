package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Two supplies that meet at one point, where nothing circulates, or at two, where it may. */
final class JoinedSupplies {
  private JoinedSupplies() {}

  /** Whether a current circulates between two supplies that are not in phase. */
  static boolean look(Scene scene, Sightings seen) {
    List<Transformer> all = scene.transformers();
    boolean fight = false;
    for (int i = 0; i < all.size(); i++) {
      for (int j = i + 1; j < all.size(); j++) {
        fight |= look(scene, seen, all.get(i), all.get(j));
      }
    }
    return fight;
  }

  private static boolean look(Scene scene, Sightings seen, Transformer one, Transformer two) {
    Copper copper = scene.copper();
    if (copper.joined(one.a(), one.b()) || copper.joined(two.a(), two.b())) {
      return false;
    }
    boolean hots = copper.joined(one.a(), two.a());
    boolean commons = copper.joined(one.b(), two.b());
    boolean hotToCommon = copper.joined(one.a(), two.b());
    boolean commonToHot = copper.joined(one.b(), two.a());
    if (hots && commons) {
      return circulating(scene, seen, one, two, false);
    }
    if (hotToCommon && commonToHot) {
      return circulating(scene, seen, one, two, true);
    }
    if (hots) {
      meet(
          scene,
          seen,
          one,
          two,
          new Joint("hots", one.a(), two.a(), "commons", between(one, two, 1)));
    } else if (commons) {
      meet(
          scene,
          seen,
          one,
          two,
          new Joint("commons", one.b(), two.b(), "hots", between(one, two, 1)));
    } else if (hotToCommon) {
      meet(
          scene,
          seen,
          one,
          two,
          new Joint("ends", one.a(), two.b(), "outer ends", between(one, two, -1)));
    } else if (commonToHot) {
      meet(
          scene,
          seen,
          one,
          two,
          new Joint("ends", one.b(), two.a(), "outer ends", between(one, two, -1)));
    }
    return false;
  }

  private record Joint(String joined, Point a, Point b, String free, double volts) {}

  private static void meet(
      Scene scene, Sightings seen, Transformer one, Transformer two, Joint joint) {
    boolean metal = !scene.copper().joinedOffMetal(joint.a(), joint.b());
    boolean commons = joint.joined().equals("commons");
    LoopFinding kind =
        metal && commons ? LoopFinding.METAL_SUPPLIES_MEET : LoopFinding.SUPPLIES_MEET;
    List<Copper.Joint> way = scene.copper().way(joint.a(), joint.b());
    String words =
        String.format(
            Locale.ROOT,
            "%s and %s are joined at their %s%s and nowhere else: nothing circulates, %.1f V stand"
                + " between their %s",
            one.name(),
            two.name(),
            joint.joined(),
            metal ? " over bare metal" : "",
            joint.volts(),
            joint.free());
    seen.add(
        kind,
        one.name() + two.name() + joint.joined(),
        scene.state(),
        0,
        commons,
        () -> new Account(words, Ways.names(one, way), Ways.places(way)));
  }

  /** Open-circuit volts between the free ends: of the difference (sign 1) or the sum (−1). */
  private static double between(Transformer one, Transformer two, int sign) {
    double angle = Math.toRadians(two.degrees() - one.degrees());
    double u = one.openVolts();
    double v = sign * two.openVolts();
    return Math.hypot(u - v * Math.cos(angle), v * Math.sin(angle));
  }

  private static boolean circulating(
      Scene scene, Sightings seen, Transformer one, Transformer two, boolean crossed) {
    double degrees = Math.IEEEremainder(two.degrees() - one.degrees() + (crossed ? 180 : 0), 360);
    LoopFinding kind =
        Math.abs(degrees) < 1
            ? LoopFinding.SUPPLIES_IN_PHASE
            : Math.abs(degrees) > 179
                ? LoopFinding.SUPPLIES_OPPOSED
                : LoopFinding.SUPPLIES_OTHER_PHASE;
    double amps = Math.max(scene.of(one).amps(), scene.of(two).amps());
    seen.fault(
        kind, one.name() + two.name(), scene, amps, () -> account(scene, one, two, crossed, kind));
    return kind != LoopFinding.SUPPLIES_IN_PHASE;
  }

  private static Account account(
      Scene scene, Transformer one, Transformer two, boolean crossed, LoopFinding kind) {
    Copper copper = scene.copper();
    Point first = crossed ? two.b() : two.a();
    Point second = crossed ? two.a() : two.b();
    List<Copper.Joint> way = new ArrayList<>(copper.way(one.a(), first));
    List<Copper.Joint> back = copper.way(second, one.b());
    boolean metal =
        !copper.joinedOffMetal(one.a(), first) || !copper.joinedOffMetal(second, one.b());
    double volts = between(one, two, crossed ? -1 : 1);
    String words =
        String.format(
            Locale.ROOT,
            "%s and %s are joined at both ends%s: %.1f V drive their current around%s",
            one.name(),
            two.name(),
            metal ? ", over bare metal" : "",
            volts,
            amps(scene, one, two, kind));
    List<String> path = new ArrayList<>(Ways.names(one, way));
    path.add(two.name());
    path.addAll(Ways.names(one, back).subList(1, Ways.names(one, back).size()));
    way.addAll(back);
    return new Account(words, path, Ways.places(way));
  }

  private static String amps(Scene scene, Transformer one, Transformer two, LoopFinding kind) {
    String each =
        String.format(
            Locale.ROOT,
            ", %.1f A in %s and %.1f A in %s, rated for %.1f A and %.1f A",
            scene.of(one).amps(),
            one.name(),
            scene.of(two).amps(),
            two.name(),
            one.ratedAmps(),
            two.ratedAmps());
    if (kind == LoopFinding.SUPPLIES_IN_PHASE) {
      return each;
    }
    return each
        + scene.result.fuses().stream()
            .filter(f -> f.opens().possible() && f.amps() > f.ratedAmps())
            .map(f -> "; " + Figures.rating(f) + " " + Figures.opens(f.opens()))
            .reduce("", String::concat);
  }
}
