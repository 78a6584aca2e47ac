package bellwire.analysis.landing;

import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Supplies;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** Which one thing, changed, would put a state right: what is in the way, not only what fails. */
final class Cures {
  private final Installation of;
  private final List<StateResult> now;
  private final Map<Cure, Simulation> simulations = new HashMap<>();
  private @Nullable List<Cure> all;

  /**
   * @param now every state as it is
   */
  Cures(Installation of, List<StateResult> now) {
    this.of = of;
    this.now = now;
  }

  /**
   * Such as ', because the jumper RC-RH is missing'; empty where no one thing does it. What is
   * broken, open or touching counts where the finding goes away with it; a change of the plan only
   * where the whole state is right with it, more states are than now, and no two supplies meet that
   * did not.
   *
   * @param gone whether the finding is gone
   */
  String words(Scene scene, Predicate<StateResult> gone) {
    String best = "";
    long most = right(now);
    boolean fed = scene.result.lit() && scene.result.settled();
    for (Cure cure : all()) {
      if (cure.otherSupply() && !fed) {
        continue;
      }
      StateResult then = simulation(cure).state(scene.result.state());
      if (!gone.test(then)) {
        continue;
      }
      if (cure.fault()) {
        return ", because " + cure.words();
      }
      boolean well =
          right(of.equipment(), then)
              && joined(simulation(cure), scene) <= joined(scene.simulation, scene);
      long states = well ? right(simulation(cure).states()) : 0;
      if (states > most) {
        most = states;
        best = ", because " + cure.words();
      }
    }
    return best;
  }

  /** Pairs of supplies that meet: no cure may join two that were apart. */
  private static long joined(Simulation simulation, Scene scene) {
    return simulation.supplies(scene.result.state()).stream()
        .filter(s -> s.joined() != Supplies.Joined.APART)
        .count();
  }

  private Simulation simulation(Cure cure) {
    return simulations.computeIfAbsent(cure, c -> new Simulation(c.installation()));
  }

  private List<Cure> all() {
    List<Cure> known = all;
    if (known == null) {
      known = Cure.all(of);
      all = known;
    }
    return known;
  }

  private long right(List<StateResult> states) {
    return states.stream().filter(s -> right(of.equipment(), s)).count();
  }

  /** Whether all that is called runs, nothing else does, and no fuse opens. */
  static boolean right(Equipment equipment, StateResult in) {
    Equipment.Wanted wanted = equipment.wantedOn(in.state().call());
    for (LoadResult l : in.loads()) {
      boolean must = wanted.must().contains(l.load().name());
      if (must ? l.energised() != Energised.ON : !Scene.mayRun(wanted, l)) {
        return false;
      }
    }
    return in.lit() && in.settled() && in.fuses().stream().noneMatch(f -> f.opens().possible());
  }
}
