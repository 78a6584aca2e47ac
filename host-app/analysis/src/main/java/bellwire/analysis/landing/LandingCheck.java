package bellwire.analysis.landing;

import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import java.util.List;

/** What every state of the control does under a landing plan, and what is wrong with it. */
public final class LandingCheck {
  private LandingCheck() {}

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
    throw new UnsupportedOperationException(
        "states=" + simulation.states().size() + ", plan=" + installation.plan().landed().size());
  }
}
