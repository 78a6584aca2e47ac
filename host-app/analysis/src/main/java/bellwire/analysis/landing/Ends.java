package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import java.util.List;
import java.util.Locale;
import java.util.Objects;

/** Conductors under a terminal at one end only. */
final class Ends {
  private Ends() {}

  static void look(Scene scene, Sightings seen) {
    for (Landed l : scene.of.plan().landed()) {
      String near = l.near();
      String far = l.far();
      if (near != null && far != null || near == null && far == null) {
        continue;
      }
      Point landed = near != null ? Point.near(near) : Point.far(Objects.requireNonNull(far));
      String free = near == null ? "at the equipment" : "at the control";
      for (Transformer t : scene.transformers()) {
        if (scene.copper().joined(t.a(), landed)) {
          String words =
              String.format(
                  Locale.ROOT,
                  "%s is under %s, its other end hangs free %s with %.1f V on it",
                  l.conductor(),
                  landed.words(),
                  free,
                  t.openVolts());
          seen.notice(
              LoopFinding.ON_NOTHING,
              l.conductor(),
              scene,
              0,
              () -> new Account(words, List.of(), List.of(l.conductor(), landed.words())));
        }
      }
    }
  }
}
