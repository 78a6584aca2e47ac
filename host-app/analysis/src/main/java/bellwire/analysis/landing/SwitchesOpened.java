package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Switch;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * What each protective switch stops when it opens, and what the control then shows. That the
 * control calls on is told of float switches only: a limit or a pressure switch closes again by
 * itself.
 */
final class SwitchesOpened {
  private SwitchesOpened() {}

  /**
   * @param simulation of the installation
   * @param now every state with the switches as they are
   * @param sound whether all runs that should: only then is a switch without effect judged
   */
  static void look(
      Installation of,
      Simulation simulation,
      List<StateResult> now,
      boolean sound,
      Sightings seen) {
    for (Switch opened : of.equipment().all(Switch.class)) {
      if (!of.open().contains(opened.name())) {
        look(of, simulation, opened, now, sound, seen);
      }
    }
  }

  private static void look(
      Installation of,
      Simulation simulation,
      Switch opened,
      List<StateResult> now,
      boolean sound,
      Sightings seen) {
    Set<String> open = new HashSet<>(of.open());
    open.add(opened.name());
    Simulation then = simulation.of(of.withOpen(open));
    boolean effect = false;
    for (StateResult before : now) {
      StateResult after = then.state(before.state());
      List<String> stopped = stopped(before, after);
      boolean blank = before.lit() && !after.lit();
      effect |= blank || !stopped.isEmpty();
      String state = before.state().name();
      if (blank) {
        String words = when(opened) + ", the control goes blank";
        seen.add(
            LoopFinding.BLANK_ON_SWITCH,
            opened.name(),
            state,
            0,
            true,
            () -> new Account(words, List.of(), List.of(opened.name())));
      } else if (opened.kind() == Switch.Kind.FLOAT
          && !stopped.isEmpty()
          && before.state().call() != Call.NONE) {
        String words =
            when(opened)
                + ", "
                + Figures.listed(stopped)
                + (stopped.size() == 1 ? " stops" : " stop")
                + " and the control calls on";
        seen.add(
            LoopFinding.CALLS_IN_SILENCE,
            opened.name(),
            state,
            stopped.size(),
            true,
            () -> new Account(words, List.of(), List.of(opened.name())));
      }
    }
    if (!effect && sound && toStop(of, opened, now, then)) {
      Account account =
          new Account(when(opened) + ", everything runs on", List.of(), List.of(opened.name()));
      for (StateResult in : now) {
        String state = in.state().name();
        seen.add(LoopFinding.SWITCH_WITHOUT_EFFECT, opened.name(), state, 0, false, () -> account);
      }
    }
  }

  /**
   * Whether something runs that it is to stop, or its two ends are joined beside it. A switch of
   * what no call of this control runs stops nothing, and nothing is wrong with it.
   */
  private static boolean toStop(
      Installation of, Switch opened, List<StateResult> now, Simulation then) {
    Set<String> stops = stops(of.equipment(), opened);
    for (StateResult in : now) {
      Copper copper = new Copper(then.joints(in.state(), Copper.TOUCH_OHMS));
      if (copper.joined(opened.a(), opened.b())
          || in.loads().stream()
              .anyMatch(l -> l.energised() == Energised.ON && stops.contains(l.load().name()))) {
        return true;
      }
    }
    return false;
  }

  /** The loads that it stops wherever one terminal or two joined ones run them. */
  private static Set<String> stops(Equipment equipment, Switch opened) {
    List<Element> others = equipment.elements().stream().filter(e -> !e.equals(opened)).toList();
    NearEffects whole = new NearEffects(equipment);
    NearEffects without =
        new NearEffects(
            new Equipment(equipment.title(), equipment.terminals(), others, equipment.wanted()));
    int terminals = equipment.terminals().size();
    long stops = 0;
    for (int i = 0; i < terminals; i++) {
      for (int j = i; j < terminals; j++) {
        int[] group = IntStream.range(0, terminals).toArray();
        group[j] = i;
        stops |= whole.of(group).sure() & ~without.of(group).sure();
      }
    }
    Set<String> names = new HashSet<>();
    List<Load> loads = equipment.all(Load.class);
    for (int i = 0; i < loads.size(); i++) {
      if ((stops >>> i & 1) != 0) {
        names.add(loads.get(i).name());
      }
    }
    return names;
  }

  private static String when(Switch opened) {
    return "when " + opened.name() + " opens (" + opened.means() + ")";
  }

  private static List<String> stopped(StateResult before, StateResult after) {
    List<String> stopped = new ArrayList<>();
    for (int i = 0; i < before.loads().size(); i++) {
      LoadResult b = before.loads().get(i);
      if (b.energised() == Energised.ON && after.loads().get(i).energised() != Energised.ON) {
        stopped.add(b.load().name());
      }
    }
    return stopped;
  }
}
