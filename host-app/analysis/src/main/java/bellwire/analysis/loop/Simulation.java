package bellwire.analysis.loop;

import java.util.List;

/** What every state of an installation really does. Immutable. */
public final class Simulation {
  private final Installation installation;

  public Simulation(Installation installation) {
    this.installation = installation;
  }

  /** Every state of the control, in its order. */
  public List<StateResult> states() {
    return installation.control().states().stream().map(this::state).toList();
  }

  public StateResult state(Control.State state) {
    throw new UnsupportedOperationException("state=" + state.name());
  }
}
