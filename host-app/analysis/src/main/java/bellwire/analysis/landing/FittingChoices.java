package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Every way to fit a control's jumpers and to set it that differs in what its contacts do. */
final class FittingChoices {
  private static final int MOST = 4096;

  private FittingChoices() {}

  /**
   * Fewest changes first. A jumper at the control counts as a change where it is fitted and was not
   * as found, or the reverse; a setting where it is not as found, or not the first choice where
   * nothing was found; a jumper at the equipment where it is taken out.
   */
  static List<Scheme.Fittings> of(Control control, LandingPlan asFound) {
    List<Jumper> jumpers = new ArrayList<>(control.jumpers());
    asFound.jumpers().stream()
        .filter(j -> j.side() == Point.Side.NEAR && !jumpers.contains(j))
        .sorted(Comparator.comparing(Jumper::a).thenComparing(Jumper::b))
        .forEach(jumpers::add);
    long count = 1L << Math.min(jumpers.size(), 30);
    for (Control.Setting setting : control.settings()) {
      count = Math.min(count * setting.choices().size(), MOST + 1L);
    }
    if (count > MOST) {
      throw new IllegalArgumentException("jumpers and settings=" + count);
    }
    List<Scheme.Fittings> all = new ArrayList<>();
    for (int mask = 0; mask < 1 << jumpers.size(); mask++) {
      Set<Jumper> fitted = new LinkedHashSet<>();
      int changes = 0;
      for (int j = 0; j < jumpers.size(); j++) {
        boolean fit = (mask & 1 << j) != 0;
        if (fit) {
          fitted.add(jumpers.get(j));
        }
        changes += fit == asFound.jumpers().contains(jumpers.get(j)) ? 0 : 1;
      }
      for (Map<String, String> settings : settings(control)) {
        all.add(
            new Scheme.Fittings(fitted, settings, changes + changes(control, settings, asFound)));
      }
    }
    all.sort(Comparator.comparingInt(Scheme.Fittings::changes));
    Set<Object> seen = new HashSet<>();
    all.removeIf(f -> !seen.add(List.of(f.jumpers(), closings(control, f.settings()))));
    return all;
  }

  /** What a setting is to start with: as found, where the new control has such a choice. */
  static String usual(Control.Setting setting, LandingPlan asFound) {
    String was = asFound.settings().get(setting.name());
    return was != null && setting.choices().contains(was) ? was : setting.choices().get(0);
  }

  /** Which terminals are closed in each state. */
  static List<Set<String>> closings(Control control, Map<String, String> settings) {
    List<Set<String>> all = new ArrayList<>();
    for (Control.State state : control.states()) {
      Set<String> closed = new HashSet<>();
      state.closes().stream().filter(c -> c.under(settings)).forEach(c -> closed.add(c.terminal()));
      all.add(closed);
    }
    return all;
  }

  private static int changes(Control control, Map<String, String> settings, LandingPlan asFound) {
    int changes = 0;
    for (Control.Setting s : control.settings()) {
      changes += usual(s, asFound).equals(settings.get(s.name())) ? 0 : 1;
    }
    return changes;
  }

  private static List<Map<String, String>> settings(Control control) {
    List<Map<String, String>> all = new ArrayList<>();
    all.add(Map.of());
    for (Control.Setting setting : control.settings()) {
      List<Map<String, String>> longer = new ArrayList<>();
      for (Map<String, String> before : all) {
        for (String choice : setting.choices()) {
          Map<String, String> with = new LinkedHashMap<>(before);
          with.put(setting.name(), choice);
          longer.add(with);
        }
      }
      all = longer;
    }
    return all;
  }
}
