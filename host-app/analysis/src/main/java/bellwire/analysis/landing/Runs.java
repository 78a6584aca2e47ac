package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;

/** What runs in a state against what its call is to run. */
final class Runs {
  private final Scene scene;
  private final Sightings seen;
  private final Leaks leaks;
  private final Missing all;
  private final Simulation low;
  private final Set<String> runSomewhere;
  private final List<LoadResult> uncalled;
  private final List<LoadResult> missing;

  /**
   * @param all takes what is missing in this state
   * @param low the same with low mains
   * @param runSomewhere names of the loads that are pulled in in any state
   */
  Runs(
      Scene scene,
      Sightings seen,
      Leaks leaks,
      Missing all,
      Simulation low,
      Set<String> runSomewhere) {
    this.scene = scene;
    this.seen = seen;
    this.leaks = leaks;
    this.all = all;
    this.low = low;
    this.runSomewhere = runSomewhere;
    uncalled = loads(l -> l.energised() == Energised.ON && !scene.mayRun(l.load()));
    missing = loads(l -> l.energised() == Energised.OFF && scene.must(l.load()));
  }

  private List<LoadResult> loads(Predicate<LoadResult> such) {
    List<LoadResult> loads = new ArrayList<>(scene.result.loads());
    loads.removeIf(such.negate());
    return loads;
  }

  void look() {
    overvoltage();
    chatters();
    heatAndCool();
    emergency();
    direction();
    if (!scene.result.lit()) {
      missing.clear();
    }
    new Returns(scene, seen).of(missing);
    if (!new Starved(scene, seen).tell(missing, () -> low.state(scene.result.state()))) {
      Shorts.overloads(scene, seen);
    }
    wrongLoad();
    missing.forEach(l -> all.add(scene, l));
    doubtful();
    uncalled();
    held();
  }

  private void overvoltage() {
    for (LoadResult l : loads(l -> l.volts() > l.load().mostVolts())) {
      seen.fault(
          LoopFinding.OVERVOLTAGE,
          l.load().name(),
          scene,
          l.volts(),
          () ->
              account(
                  l,
                  String.format(
                      Locale.ROOT,
                      "%s gets %.1f V and stands %s V",
                      l.load().name(),
                      l.volts(),
                      Figures.number(l.load().mostVolts()))));
    }
  }

  private void chatters() {
    for (LoadResult l : loads(l -> l.energised() == Energised.CHATTERS)) {
      seen.fault(
          LoopFinding.CHATTERS,
          l.load().name(),
          scene,
          l.volts(),
          () -> account(l, Figures.gets(l)));
    }
  }

  private void heatAndCool() {
    List<LoadResult> heat = on(Role.HEAT);
    List<LoadResult> compressor = on(Role.COMPRESSOR);
    boolean wanted =
        !heat.isEmpty()
            && !compressor.isEmpty()
            && scene.mayRun(heat.get(0).load())
            && scene.mayRun(compressor.get(0).load());
    if (heat.isEmpty() || compressor.isEmpty() || wanted || !pumpsCold()) {
      return;
    }
    List<LoadResult> both = List.of(heat.get(0), compressor.get(0));
    both(LoopFinding.HEAT_AND_COOL, both);
  }

  private void emergency() {
    List<LoadResult> compressor = on(Role.COMPRESSOR);
    compressor.removeIf(l -> scene.mayRun(l.load()));
    Call call = scene.result.state().call();
    boolean emergency = call == Call.EMERGENCY_1 || call == Call.EMERGENCY_2;
    if (emergency && !compressor.isEmpty() && uncalled.contains(compressor.get(0))) {
      both(LoopFinding.EMERGENCY_WITH_COMPRESSOR, List.of(compressor.get(0)));
    }
  }

  /** One finding about loads that run, which are then told. */
  private void both(LoopFinding kind, List<LoadResult> loads) {
    uncalled.removeAll(loads);
    String names = Figures.listed(loads.stream().map(l -> l.load().name()).toList());
    LoadResult first =
        loads.stream().filter(l -> !scene.mayRun(l.load())).findFirst().orElse(loads.get(0));
    seen.fault(
        kind,
        names,
        scene,
        first.volts(),
        () ->
            account(
                first,
                String.join("; ", loads.stream().map(Figures::on).toList())
                    + scene.cures.words(scene, r -> !pulledIn(r, first.load()))));
  }

  private List<LoadResult> on(Role role) {
    return loads(l -> l.energised() == Energised.ON && l.load().role() == role);
  }

  /** Which way the compressor pumps: by the reversing valve, without one it cools. */
  private boolean pumpsCold() {
    for (LoadResult l : scene.result.loads()) {
      boolean pulledIn = l.energised() == Energised.ON;
      if (l.load().role() == Role.VALVE_COOLING) {
        return pulledIn;
      }
      if (l.load().role() == Role.VALVE_HEATING) {
        return !pulledIn;
      }
    }
    return true;
  }

  private void direction() {
    Predicate<LoadResult> valve =
        l -> l.load().role() == Role.VALVE_COOLING || l.load().role() == Role.VALVE_HEATING;
    Call call = scene.result.state().call();
    List<LoadResult> valves = loads(valve);
    if (valves.isEmpty()
        || on(Role.COMPRESSOR).isEmpty()
        || !(call.heats() || call.cools())
        || call.cools() == pumpsCold()
        || !scene.mayRun(on(Role.COMPRESSOR).get(0).load())) {
      return;
    }
    LoadResult v = valves.get(0);
    uncalled.removeIf(valve);
    missing.removeIf(valve);
    seen.fault(
        LoopFinding.WRONG_DIRECTION,
        v.load().name() + (call.cools() ? ", heats" : ", cools"),
        scene,
        0,
        () ->
            account(
                v,
                String.format(
                    Locale.ROOT,
                    "%s runs, %s gets %.1f V: it %s%s",
                    on(Role.COMPRESSOR).get(0).load().name(),
                    v.load().name(),
                    v.volts(),
                    call.cools() ? "heats" : "cools",
                    scene.cures.words(
                        scene, r -> pulledIn(r, v.load()) != pulledIn(scene.result, v.load())))));
  }

  private static boolean pulledIn(StateResult in, Load load) {
    return in.loads().stream()
        .anyMatch(l -> l.load().equals(load) && l.energised() == Energised.ON);
  }

  private void wrongLoad() {
    if (missing.isEmpty() || uncalled.isEmpty()) {
      return;
    }
    List<LoadResult> wrong = List.copyOf(uncalled);
    List<LoadResult> right = List.copyOf(missing);
    uncalled.clear();
    missing.clear();
    seen.fault(
        LoopFinding.WRONG_LOAD,
        names(wrong) + " for " + names(right),
        scene,
        wrong.get(0).volts(),
        () ->
            account(
                wrong.get(0),
                "it runs "
                    + String.join("; ", wrong.stream().map(Figures::on).toList())
                    + "; "
                    + String.join("; ", right.stream().map(Figures::gets).toList())
                    + scene.cures.words(
                        scene, r -> right.stream().allMatch(l -> pulledIn(r, l.load())))));
  }

  private static String names(List<LoadResult> loads) {
    return Figures.listed(loads.stream().map(l -> l.load().name()).toList());
  }

  private void doubtful() {
    for (LoadResult l : loads(l -> l.energised() == Energised.DOUBTFUL)) {
      if (!scene.mayRun(l.load()) && !stays(l)) {
        seen.fault(
            kind(l, LoopFinding.MAY_RUN_UNCALLED),
            l.load().name(),
            scene,
            l.volts(),
            () -> account(l, Figures.gets(l) + holds(l)));
      }
    }
  }

  private void uncalled() {
    for (LoadResult l : uncalled) {
      seen.fault(
          kind(l, LoopFinding.RUNS_UNCALLED),
          l.load().name(),
          scene,
          l.volts(),
          () -> account(l, Figures.on(l) + scene.cures.words(scene, r -> !pulledIn(r, l.load()))));
    }
  }

  /** Comes pulled in from another state, and does not drop out here. */
  private boolean stays(LoadResult l) {
    return l.energised() != Energised.ON
        && !scene.mayRun(l.load())
        && runSomewhere.contains(l.load().name())
        && l.held();
  }

  private void held() {
    for (LoadResult l : loads(this::stays)) {
      seen.fault(
          kind(l, LoopFinding.HELD),
          l.load().name(),
          scene,
          l.volts(),
          () -> account(l, holding(l) + scene.cures.words(scene, r -> !holdsIn(r, l.load()))));
    }
  }

  /** What holds it in: the volts it gets itself, or those of the relay whose contact feeds it. */
  private String holding(LoadResult l) {
    for (LoadResult relay : loads(r -> r.held() && r.volts() >= r.load().holdInVolts())) {
      boolean feeds =
          scene.of.equipment().all(Contact.class).stream()
              .anyMatch(c -> c.normallyOpen() && c.load().equals(relay.load().name()));
      if (l.volts() < l.load().holdInVolts() && feeds) {
        return l.load().name()
            + " stays on by "
            + relay.load().name()
            + ": it gets "
            + String.format(Locale.ROOT, "%.1f V", relay.volts())
            + holds(relay);
      }
    }
    return Figures.gets(l) + holds(l);
  }

  private static boolean holdsIn(StateResult in, Load load) {
    return in.loads().stream().anyMatch(l -> l.load().equals(load) && l.held());
  }

  private static String holds(LoadResult l) {
    return " and holds in from " + Figures.number(l.load().holdInVolts()) + " V";
  }

  private LoopFinding kind(LoadResult l, LoopFinding otherwise) {
    return leaks.cause(scene, l.load()) ? LoopFinding.STOLEN_POWER : otherwise;
  }

  private Account account(LoadResult l, String words) {
    List<String> path = Ways.of(scene, l.load());
    return new Account(words, path, List.of(l.load().name()));
  }
}
