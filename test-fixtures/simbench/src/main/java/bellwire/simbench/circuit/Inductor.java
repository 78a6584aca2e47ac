package bellwire.simbench.circuit;

/**
 * A winding: inductance and resistance in series from a to b, its current counted from a to b.
 *
 * @param a node number, or {@link Netlist#COMMON}
 * @param b node number, or {@link Netlist#COMMON}
 * @param ohms above 0
 * @param henries above 0
 * @param joined whether it is connected; where not, its current dies away by itself
 */
public record Inductor(int a, int b, double ohms, double henries, boolean joined) {
  public Inductor {
    if (!(ohms > 0 && henries > 0)) {
      throw new IllegalArgumentException("ohms=" + ohms + " henries=" + henries);
    }
  }
}
