package bellwire.simbench.circuit;

/**
 * Something that takes a circuit element by element: the solver's matrices, or a record of it to
 * write out. Nodes are numbers given out by the caller; {@link #COMMON} is board common, the zero
 * of all voltages.
 */
public interface Netlist {
  int COMMON = -1;

  void resistor(int a, int b, double ohms);

  void capacitor(int a, int b, double farads);

  /** A voltage source with its series resistance; current leaves it at {@code plus}. */
  void emf(int plus, int minus, double ohms, Drive drive);

  /** A winding: resistance and inductance in series. */
  void inductor(Inductor inductor);

  /**
   * A diode from anode to cathode: open up to its forward voltage, from there on a resistance.
   *
   * @param conducting whether its voltage is above the forward voltage at present
   */
  void diode(int anode, int cathode, double volts, double ohms, boolean conducting);

  /** A constant current out of board common into a node. */
  void inject(int into, double amps);

  /** A capacitor from a node to a stiff source that stands on {@code reference}. */
  void coupling(int node, int reference, double farads, Drive drive);
}
