package bellwire.simbench.control;

import bellwire.simbench.CallSide;
import java.util.List;

/**
 * A room control on the bench: operated by {@link #operate}, seen at its terminals. Times are
 * nanoseconds of the bench and must never decrease from call to call, whichever is called. The same
 * set-up, seed and operations give the same edges to the nanosecond.
 */
public final class SimulatedControl implements CallSide {
  private final ControlSetup setup;
  private final List<String> leads;
  private final long seed;

  /**
   * A control at rest with its power on since long ago, mode off, fan automatic.
   *
   * @param leadTerminals the terminal on each lead from X1 on, empty for none; 16 at most
   * @param seed of what differs from one edge to the next: bounce, chatter
   */
  public SimulatedControl(ControlSetup setup, List<String> leadTerminals, long seed) {
    this.setup = setup;
    this.leads = List.copyOf(leadTerminals);
    this.seed = seed;
  }

  public List<String> terminals() {
    return setup.kind().terminals();
  }

  public void operate(Operation operation, long nanos) {
    throw new UnsupportedOperationException("seed=" + seed);
  }

  /** Whether a terminal's contact passes current; its supply may be off all the same. */
  public boolean closed(String terminal, long nanos) {
    throw new UnsupportedOperationException("leads=" + leads);
  }

  /** The next moment after nanos at which some contact changes if nobody operates it. */
  public long nextChange(long nanos) {
    return Long.MAX_VALUE;
  }

  @Override
  public double volts(int lead, boolean wetting, boolean load, long nanos) {
    return 0;
  }
}
