package bellwire.analysis.loop;

/**
 * A transformer's secondary, by its Thévenin equivalent.
 *
 * @param a its hot end, which leads to R
 * @param b its common end
 * @param openVolts with nothing connected, V rms
 * @param ratedVolts at its rated apparent power, V rms, into a resistive load
 * @param voltAmperes rated apparent power
 * @param reactancePerResistance X/R of its short-circuit impedance
 * @param degrees phase of a against b, of the supply it is on: 0 or 180 on one phase (180: its
 *     secondary's or primary's leads are exchanged), ±120 on another
 * @param breakerAmps rating of a breaker built into it; 0 for none
 */
public record Transformer(
    String name,
    Point a,
    Point b,
    double openVolts,
    double ratedVolts,
    double voltAmperes,
    double reactancePerResistance,
    double degrees,
    double breakerAmps)
    implements Element {

  /** Its own breaker, as {@link Installation#open} names it; the transformer's name: no supply. */
  public String breakerName() {
    return name + "'s breaker";
  }

  public double ratedAmps() {
    return voltAmperes / ratedVolts;
  }
}
