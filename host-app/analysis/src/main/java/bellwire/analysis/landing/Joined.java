package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What an ohmmeter says of the conductors lifted at the equipment, the control's contacts open:
 * which ones copper joins.
 */
final class Joined {
  private static final String METAL = "metal";
  private static final double MOST_OHMS = 10;

  private final List<Set<String>> groups = new ArrayList<>();

  private Joined() {}

  static String words(Installation of) {
    Joined joined = new Joined();
    List<Landed> landed = of.plan().landed();
    for (int i = 0; i < landed.size(); i++) {
      for (int j = i + 1; j < landed.size(); j++) {
        if (sound(of, landed.get(i)) && sound(of, landed.get(j))) {
          joined.atControl(of, landed.get(i), landed.get(j));
        }
      }
    }
    for (Cable.Bridge bridge : of.cable().bridges()) {
      // What touched at the clamps is apart once lifted.
      if (bridge.at() > 0 && bridge.ohms() < MOST_OHMS) {
        joined.join(bridge.a(), Objects.requireNonNullElse(bridge.b(), METAL));
      }
    }
    return joined.groups.isEmpty()
        ? "none"
        : String.join(
            "; ", joined.groups.stream().map(g -> String.join(" and ", g)).sorted().toList());
  }

  private static boolean sound(Installation of, Landed landed) {
    return !of.cable().conductor(landed.conductor()).broken();
  }

  private void atControl(Installation of, Landed a, Landed b) {
    @Nullable String one = a.far();
    @Nullable String other = b.far();
    if (one == null || other == null) {
      return;
    }
    boolean jumper =
        of.plan().jumpers().contains(new Jumper(Side.FAR, one, other))
            || of.plan().jumpers().contains(new Jumper(Side.FAR, other, one));
    if (one.equals(other) || jumper) {
      join(a.conductor(), b.conductor());
    }
  }

  private void join(String a, String b) {
    Set<String> joined = new TreeSet<>(Set.of(a));
    joined.add(b);
    for (Set<String> group : List.copyOf(groups)) {
      if (group.contains(a) || group.contains(b)) {
        joined.addAll(group);
        groups.remove(group);
      }
    }
    groups.add(joined);
  }
}
