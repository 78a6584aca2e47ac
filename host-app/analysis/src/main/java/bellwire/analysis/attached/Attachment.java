package bellwire.analysis.attached;

/**
 * What joins two ports.
 *
 * @param a port; a diode's anode
 * @param b port
 * @param probability of the kind, by the priors of {@link LoadPriors}
 * @param ohms of a winding or a resistance, at rest; NaN for the others
 * @param value henry of a winding, farad of a capacitor, volt of a diode, ohm of a resistance; NaN
 *     of what is unknown
 */
public record Attachment(
    int a, int b, LoadKind kind, double probability, double ohms, double value) {

  /** Whether it is something other than copper. */
  public boolean load() {
    return kind != LoadKind.RESISTANCE;
  }

  public boolean winding() {
    return kind == LoadKind.COIL || kind == LoadKind.SECONDARY;
  }

  public boolean joins(int x, int y) {
    return (a == x && b == y) || (a == y && b == x);
  }
}
