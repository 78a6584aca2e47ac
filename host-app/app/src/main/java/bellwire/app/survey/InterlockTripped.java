package bellwire.app.survey;

import bellwire.analysis.survey.Ports;

/** A port left the interlock's window: relays open, excitation off. */
public final class InterlockTripped extends Exception {
  private static final long serialVersionUID = 1L;

  private final int flags;

  /**
   * @param flags mask of the ports that were outside
   */
  public InterlockTripped(int flags) {
    super(
        "interlock tripped at "
            + (flags == 0 ? "no port in particular" : Ports.names(Ports.list(flags))));
    this.flags = flags;
  }

  public int flags() {
    return flags;
  }
}
