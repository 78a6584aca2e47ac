package bellwire.analysis.landing;

import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Supplies;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** Which one thing, changed, would put a state right: what is in the way, not only what fails. */
final class Cures {
  private final Installation of;
  private final Simulation simulation;
  private final List<StateResult> now;
  private @Nullable List<Trial> trials;

  /**
   * @param simulation of the installation
   * @param now every state as it is
   */
  Cures(Installation of, Simulation simulation, List<StateResult> now) {
    this.of = of;
    this.simulation = simulation;
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
    boolean fed = scene.result.lit() && scene.result.settled();
    for (Trial trial : trials()) {
      boolean may = trial.cure.fault() && (fed || !trial.cure.otherSupply());
      if (may && gone.test(trial.then(scene))) {
        return because(trial);
      }
    }
    long most = now.stream().filter(this::right).count();
    if (most == now.size()) {
      return "";
    }
    // Most trials fail in the state that is looked at: that spares their other states.
    for (Trial trial : trials()) {
      if (trial.all(scene) && trial.helps(scene, gone)) {
        return because(trial);
      }
    }
    String best = "";
    for (Trial trial : trials()) {
      long states = trial.helps(scene, gone) ? trial.moreThan(most) : 0;
      if (states > most) {
        most = states;
        best = because(trial);
      }
    }
    return best;
  }

  private static String because(Trial trial) {
    return ", because " + trial.cure.words();
  }

  private List<Trial> trials() {
    List<Trial> known = trials;
    if (known == null) {
      known = Cure.all(of).stream().map(Trial::new).toList();
      trials = known;
    }
    return known;
  }

  /** Pairs of supplies that meet: no cure may join two that were apart. */
  private static long joined(Simulation simulation, Scene scene) {
    return simulation.supplies(scene.result.state()).stream()
        .filter(s -> s.joined() != Supplies.Joined.APART)
        .count();
  }

  private boolean right(StateResult in) {
    return right(of.equipment(), in);
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
    if (!in.lit() || !in.settled()) {
      return false;
    }
    for (FuseResult f : in.fuses()) {
      if (f.opens().possible()) {
        return false;
      }
    }
    return true;
  }

  /** A cure as far as it has been tried. */
  private final class Trial {
    final Cure cure;
    private @Nullable Simulation tried;

    /** Whether a state was seen that is not right. */
    private boolean wrong;

    Trial(Cure cure) {
      this.cure = cure;
    }

    private Simulation simulation() {
      Simulation known = tried;
      if (known == null) {
        known = simulation.of(cure.installation());
        tried = known;
      }
      return known;
    }

    StateResult then(Scene scene) {
      return simulation().state(scene.result.state());
    }

    /** As a change of the plan. */
    boolean helps(Scene scene, Predicate<StateResult> gone) {
      if (cure.fault()) {
        return false;
      }
      StateResult then = then(scene);
      return right(then)
          && gone.test(then)
          && joined(simulation(), scene) <= joined(scene.simulation, scene);
    }

    /** Whether every state is right, that of a scene asked first. */
    boolean all(Scene scene) {
      wrong |= cure.fault() || !wrong && !right(then(scene));
      for (int i = 0; i < now.size() && !wrong; i++) {
        wrong = !right(simulation().state(now.get(i).state()));
      }
      return !wrong;
    }

    /** How many states are right, if more than some; else that or less. */
    long moreThan(long least) {
      long states = now.size();
      for (StateResult r : now) {
        if (states > least && !right(simulation().state(r.state()))) {
          states--;
        }
      }
      return states;
    }
  }
}
