package bellwire.analysis.landing;

import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** What every state of the control does under a landing plan, and what is wrong with it. */
public final class LandingCheck {
  private final Installation installation;
  private final Simulation simulation;
  private final Sightings seen;
  private final Leaks leaks;
  private final Simulation low;
  private final Missing missing = new Missing();
  private final Set<String> runSomewhere = new HashSet<>();

  private LandingCheck(Installation installation, Simulation simulation) {
    this.installation = installation;
    this.simulation = simulation;
    this.seen = new Sightings(installation.control().states());
    this.leaks = new Leaks(installation);
    this.low = new Simulation(LowMains.of(installation));
  }

  /** Findings, worst first, notices last; empty where all is well. */
  public static List<Found> check(Installation installation) {
    return check(installation, new Simulation(installation));
  }

  /**
   * The same, where the installation has been simulated already.
   *
   * @param simulation of this installation
   */
  public static List<Found> check(Installation installation, Simulation simulation) {
    return new LandingCheck(installation, simulation).found();
  }

  /** Whether there is no fault; quicker than to tell which and why. */
  public static boolean sound(Installation installation) {
    LandingCheck check = new LandingCheck(installation, new Simulation(installation));
    check.look();
    return !check.seen.faults();
  }

  private List<Found> found() {
    look();
    return seen.found();
  }

  private void look() {
    List<StateResult> results = simulation.states();
    for (StateResult result : results) {
      for (StateResult.LoadResult l : result.loads()) {
        if (l.energised() == Energised.ON) {
          runSomewhere.add(l.load().name());
        }
      }
    }
    Cures cures = new Cures(installation, simulation, results);
    for (StateResult result : results) {
      look(new Scene(installation, simulation, cures, result));
    }
    missing.tell(installation.equipment(), installation.control(), runSomewhere, seen);
    missing.tellAbsent(installation, seen);
    SwitchesOpened.look(installation, simulation, results, !seen.faults(), seen);
  }

  /** Causes first: what a short or two supplies that fight do to the loads is not told. */
  private void look(Scene scene) {
    boolean shorted = Shorts.look(scene, seen);
    boolean fight = new JoinedSupplies(scene, seen).look();
    Ends.look(scene, seen);
    Touches.look(scene, seen);
    if (shorted || fight) {
      return;
    }
    if (Feeding.look(scene, seen, low)) {
      new Starved(scene, seen).now();
    } else {
      new Runs(scene, seen, leaks, missing, low, runSomewhere).look();
    }
  }
}
