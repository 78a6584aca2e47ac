package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import org.jspecify.annotations.Nullable;

/** One installation to look at and to measure: what a step would find there. */
final class Case {
  private final Installation installation;
  private final Simulation simulation;
  private final Symptoms symptoms;
  private @Nullable Simulation lifted;

  Case(Installation installation, Simulation simulation, Symptoms symptoms) {
    this.installation = installation;
    this.simulation = simulation;
    this.symptoms = symptoms;
  }

  Installation installation() {
    return installation;
  }

  Simulation simulation() {
    return simulation;
  }

  Symptoms symptoms() {
    return symptoms;
  }

  /** The same with every conductor's far end free and apart. */
  Simulation lifted() {
    if (lifted == null) {
      LandingPlan plan = installation.plan();
      Cable cable = installation.cable();
      lifted =
          new Simulation(
              installation
                  .withPlan(
                      new LandingPlan(
                          plan.landed().stream()
                              .map(l -> new Landed(l.conductor(), l.near(), null))
                              .toList(),
                          plan.jumpers(),
                          plan.settings()))
                  .withCable(
                      new Cable(
                          cable.name(),
                          cable.conductors(),
                          cable.bridges().stream().filter(Case::remains).toList())));
    }
    return lifted;
  }

  private static boolean remains(Bridge bridge) {
    return bridge.at() < 1;
  }

  /** Whether a fuse is found open: it was, or something at rest has opened it. */
  static boolean opened(Case c, String fuse) {
    State rest = c.installation.control().states().get(0);
    return c.installation.open().contains(fuse)
        || c.simulation.state(rest).fuses().stream()
            .anyMatch(f -> f.name().equals(fuse) && f.opens().certain());
  }

  /** Whether a state may open a fuse or heats a transformer: not one to measure in. */
  boolean hazardous(State state) {
    return hazardous(simulation.state(state));
  }

  /** The same for power put back with the cable lifted at the control. */
  boolean hazardousLifted() {
    return hazardous(lifted().state(installation.control().states().get(0)));
  }

  private static boolean hazardous(StateResult result) {
    return result.fuses().stream().anyMatch(f -> f.opens().possible())
        || result.transformers().stream().anyMatch(StateResult.TransformerResult::overloaded);
  }
}
