package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** Loads that do not run though called: in one state, in all, or none of them in any. */
final class Missing {
  private record Miss(Scene scene, LoadResult load) {}

  private record Group(LoopFinding kind, Set<String> states) {}

  private final Map<String, List<Miss>> byLoad = new LinkedHashMap<>();

  void add(Scene scene, LoadResult load) {
    byLoad.computeIfAbsent(load.load().name(), n -> new ArrayList<>()).add(new Miss(scene, load));
  }

  /** Loads missing in the same states make one finding. */
  void tell(Equipment equipment, Control control, Set<String> runSomewhere, Sightings seen) {
    Map<Group, List<Miss>> groups = new LinkedHashMap<>();
    boolean nothing = nothing(equipment, control, runSomewhere);
    byLoad.forEach(
        (load, misses) -> {
          Set<String> states = new TreeSet<>();
          misses.forEach(m -> states.add(m.scene().state()));
          LoopFinding kind =
              nothing
                  ? LoopFinding.NOTHING_RUNS
                  : states.equals(wanting(equipment, control, load))
                      ? LoopFinding.NEVER_RUNS
                      : LoopFinding.DOES_NOT_RUN;
          Group group = new Group(kind, nothing ? Set.of() : states);
          groups.computeIfAbsent(group, g -> new ArrayList<>()).addAll(misses);
        });
    groups.forEach((group, misses) -> tell(group.kind(), misses, seen));
  }

  private static void tell(LoopFinding kind, List<Miss> misses, Sightings seen) {
    Map<String, Miss> loads = new LinkedHashMap<>();
    misses.forEach(m -> loads.putIfAbsent(m.load().load().name(), m));
    for (Miss miss : misses) {
      seen.fault(
          kind,
          String.join(",", loads.keySet()),
          miss.scene(),
          0,
          () -> account(List.copyOf(loads.values())));
    }
  }

  private static Account account(List<Miss> misses) {
    Miss first = misses.get(0);
    List<String> gets = misses.stream().map(m -> Figures.gets(m.load())).toList();
    Load load = first.load().load();
    String cure =
        first
            .scene()
            .cures
            .words(
                first.scene(),
                r ->
                    r.loads().stream()
                        .anyMatch(l -> l.load().equals(load) && l.energised() == Energised.ON));
    boolean opened = !cure.isEmpty() && !first.scene().of.open().isEmpty();
    String silence = opened ? "; the control calls on in silence" : "";
    return new Account(
        String.join("; ", gets) + cure + silence,
        Ways.of(first.scene(), load),
        misses.stream().map(m -> m.load().load().name()).toList());
  }

  /** Loads that a call wants and that are not there at all. */
  void tellAbsent(Installation of, Sightings seen) {
    Set<String> there = new HashSet<>();
    of.equipment().all(Load.class).forEach(l -> there.add(l.name()));
    for (Control.State state : of.control().states()) {
      for (String load : new TreeSet<>(of.equipment().wantedOn(state.call()).must())) {
        if (!there.contains(load)) {
          Account account =
              new Account("no current flows through " + load, List.of(), List.of(load));
          seen.add(LoopFinding.NEVER_RUNS, load, state.name(), 0, false, () -> account);
        }
      }
    }
  }

  /** Whether no load that any call wants runs in any state. */
  private boolean nothing(Equipment equipment, Control control, Set<String> runSomewhere) {
    for (Control.State state : control.states()) {
      for (String load : equipment.wantedOn(state.call()).must()) {
        if (runSomewhere.contains(load) || !byLoad.containsKey(load)) {
          return false;
        }
      }
    }
    return true;
  }

  private static Set<String> wanting(Equipment equipment, Control control, String load) {
    Set<String> states = new TreeSet<>();
    for (Control.State state : control.states()) {
      if (equipment.wantedOn(state.call()).must().contains(load)) {
        states.add(state.name());
      }
    }
    return states;
  }
}
