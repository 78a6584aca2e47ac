package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Supplies;
import bellwire.analysis.loop.Supplies.Joined;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Two supplies that meet at one point, where nothing circulates, or at two, where it may. */
final class JoinedSupplies {
  private final Scene scene;
  private final Sightings seen;

  JoinedSupplies(Scene scene, Sightings seen) {
    this.scene = scene;
    this.seen = seen;
  }

  /** Whether a current circulates between two supplies that are not in phase. */
  boolean look() {
    boolean fight = false;
    if (scene.transformers().size() < 2) {
      return false;
    }
    for (Supplies pair : scene.simulation.supplies(scene.result.state())) {
      if (pair.joined() == Joined.APART || shorted(pair.a()) || shorted(pair.b())) {
        continue;
      }
      if (pair.joined().circulates()) {
        circulating(pair);
        fight |= pair.joined() != Joined.IN_PHASE;
      } else {
        meet(pair);
      }
    }
    return fight;
  }

  private boolean shorted(Transformer transformer) {
    return scene.copper().joined(transformer.a(), transformer.b());
  }

  private void meet(Supplies pair) {
    Transformer a = pair.a();
    Transformer b = pair.b();
    boolean commons = pair.joined() == Joined.COMMONS;
    Point from = commons || !scene.copper().joined(a.a(), either(pair)) ? a.b() : a.a();
    Point to = commons ? b.b() : either(pair);
    List<Joint> way = scene.copper().way(from, to);
    String words =
        String.format(
            Locale.ROOT,
            "%s and %s are joined %s%s and nowhere else: nothing circulates, %.1f V stand between"
                + " their %s",
            a.name(),
            b.name(),
            joint(pair.joined()),
            pair.overMetal() ? " over bare metal" : "",
            between(a, b, pair.joined() == Joined.IN_SERIES ? -1 : 1),
            pair.joined() == Joined.HOTS ? "commons" : commons ? "hots" : "free ends");
    LoopFinding kind =
        commons && pair.overMetal() ? LoopFinding.METAL_SUPPLIES_MEET : LoopFinding.SUPPLIES_MEET;
    seen.add(
        kind,
        a.name() + b.name() + pair.joined(),
        scene.state(),
        0,
        commons,
        () -> new Account(words, Ways.along(from, way), Ways.places(way)));
  }

  /** The end of the second that is joined to either of the first. */
  private Point either(Supplies pair) {
    Copper copper = scene.copper();
    Point hot = pair.b().a();
    boolean hotIsJoined =
        pair.joined() == Joined.HOTS
            || pair.joined() == Joined.IN_SERIES && copper.joined(pair.a().b(), hot);
    return hotIsJoined ? hot : pair.b().b();
  }

  private static String joint(Joined joined) {
    return switch (joined) {
      case HOTS -> "at their hots";
      case COMMONS -> "at their commons";
      default -> "in series, hot to common,";
    };
  }

  /** Open-circuit volts between the free ends: of the difference (sign 1) or the sum (−1). */
  private static double between(Transformer one, Transformer two, int sign) {
    double angle = Math.toRadians(two.degrees() - one.degrees());
    double u = one.openVolts();
    double v = sign * two.openVolts();
    return Math.hypot(u - v * Math.cos(angle), v * Math.sin(angle));
  }

  private void circulating(Supplies pair) {
    LoopFinding kind =
        switch (pair.joined()) {
          case IN_PHASE -> LoopFinding.SUPPLIES_IN_PHASE;
          case OPPOSED -> LoopFinding.SUPPLIES_OPPOSED;
          default -> LoopFinding.SUPPLIES_OTHER_PHASE;
        };
    seen.fault(
        kind,
        pair.a().name() + pair.b().name(),
        scene,
        pair.circulatingAmps(),
        () -> account(pair));
  }

  private Account account(Supplies pair) {
    Copper copper = scene.copper();
    Transformer a = pair.a();
    Transformer b = pair.b();
    boolean crossed = !copper.joined(a.a(), b.a());
    List<Joint> way = new ArrayList<>(copper.way(a.a(), crossed ? b.b() : b.a()));
    List<Joint> back = copper.way(crossed ? b.a() : b.b(), a.b());
    List<String> path = new ArrayList<>(Ways.names(a, way));
    path.add(b.name());
    path.addAll(Ways.along(crossed ? b.a() : b.b(), back));
    way.addAll(back);
    String words =
        String.format(
            Locale.ROOT,
            "%s and %s are joined at both ends%s: %.1f V drive %.1f A around%s",
            a.name(),
            b.name(),
            pair.overMetal() ? ", over bare metal" : "",
            between(a, b, crossed ? -1 : 1),
            pair.circulatingAmps(),
            pair.joined() == Joined.IN_PHASE
                ? ", they share the load"
                : scene.cures.words(scene, Shorts::gone) + opens(a, b));
    return new Account(words, path, Ways.places(way));
  }

  private String opens(Transformer a, Transformer b) {
    String fuses =
        scene.result.fuses().stream()
            .filter(f -> f.opens().possible() && f.amps() > f.ratedAmps())
            .map(f -> "; " + Figures.rating(f) + " " + f.opens().words())
            .reduce("", String::concat);
    return String.format(Locale.ROOT, "; rated for %.1f A and %.1f A", a.ratedAmps(), b.ratedAmps())
        + (fuses.isEmpty() ? ", no fuse opens, both overheat" : fuses);
  }
}
