package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Joint;
import java.util.List;
import java.util.Locale;

/** Touches that are no joint, and carry enough to heat. */
final class Touches {
  /** Between damp that stays cool and what chars its insulation; common practice, no source. */
  private static final double MOST_WATTS = 0.5;

  private Touches() {}

  static void look(Scene scene, Sightings seen) {
    for (Cable.Bridge bridge : scene.of.cable().bridges()) {
      if (bridge.ohms() > Copper.TOUCH_OHMS) {
        look(scene, seen, bridge);
      }
    }
  }

  private static void look(Scene scene, Sightings seen, Cable.Bridge bridge) {
    String other = bridge.b() == null ? "metal" : bridge.b();
    String name = "touch " + bridge.a() + "-" + other;
    for (Joint joint : scene.simulation.joints(scene.result.state(), bridge.ohms())) {
      double volts = scene.simulation.volts(scene.result.state(), joint.a(), joint.b());
      double amps = volts / bridge.ohms();
      if (joint.name().equals(name) && volts * amps > MOST_WATTS) {
        String words =
            String.format(
                Locale.ROOT,
                "%s touches %s: %.1f V drive %.2f A, %.1f W",
                bridge.a(),
                bridge.b() == null ? "bare metal" : other,
                volts,
                amps,
                volts * amps);
        List<String> where = bridge.b() == null ? List.of(bridge.a()) : List.of(bridge.a(), other);
        seen.fault(
            LoopFinding.TOUCH_CARRIES,
            name,
            scene,
            amps,
            () -> new Account(words, scene.simulation.path(scene.result.state(), name), where));
      }
    }
  }
}
