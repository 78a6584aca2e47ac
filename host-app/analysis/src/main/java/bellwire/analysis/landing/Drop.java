package bellwire.analysis.landing;

import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Volts lost on a load's way, conductor by conductor. */
final class Drop {
  private static final int MOST = 4;

  private Drop() {}

  /** Such as '; 1.19 A lose 3.1 V in red (2.60 ohm), 3.1 V in yellow (2.60 ohm)'. */
  static String words(Scene scene, LoadResult load) {
    List<Joint> way = way(scene, load.load());
    String lost =
        way.stream()
            .filter(j -> j.ohms() * load.amps() >= 0.05)
            .sorted(Comparator.comparingDouble(Joint::ohms).reversed())
            .limit(MOST)
            .map(
                j ->
                    String.format(
                        Locale.ROOT,
                        "%.1f V in %s (%.2f ohm)",
                        j.ohms() * load.amps(),
                        j.name(),
                        j.ohms()))
            .collect(Collectors.joining(", "));
    return lost.isEmpty()
        ? ""
        : String.format(Locale.ROOT, "; its %.2f A lose %s", load.amps(), lost);
  }

  /** Whether copper leads to both its ends. */
  static boolean reached(Scene scene, Load load) {
    return !way(scene, load).isEmpty();
  }

  private static List<Joint> way(Scene scene, Load load) {
    Copper copper = scene.copper();
    for (Transformer t : scene.transformers()) {
      if (copper.joined(t.a(), load.a()) && copper.joined(load.b(), t.b())) {
        List<Joint> way = new ArrayList<>(copper.way(t.a(), load.a()));
        way.addAll(copper.way(load.b(), t.b()));
        return way;
      }
    }
    return List.of();
  }
}
