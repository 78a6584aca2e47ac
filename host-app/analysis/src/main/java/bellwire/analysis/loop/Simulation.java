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

  /** The same once every fuse that opens for certain has opened, one after another. */
  public StateResult afterFuses(Control.State state) {
    throw new UnsupportedOperationException("state=" + state.name());
  }

  /**
   * What a meter reads between two points, once every fuse that opens for certain has opened.
   *
   * @param a as in the equipment's elements, {@link Point#near} or {@link Point#far}, or METAL
   * @return V rms; 0 where nothing joins the two, or one of them has no copper
   */
  public double volts(Control.State state, Point a, Point b) {
    throw new UnsupportedOperationException("state=" + state.name() + ", a=" + a + ", b=" + b);
  }
}
