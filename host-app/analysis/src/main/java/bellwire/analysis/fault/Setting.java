package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;

/**
 * What is known before any fault is looked for. All resistances in ohm.
 *
 * @param ports number of terminals, metal among them
 * @param metal index of the clip on bare metal, −1 if there is none
 * @param pathOhms one relay and one closed switch
 * @param referenceOhms in the return path
 * @param dividerOhms from every terminal to common
 * @param common what the conductors have in common; its uncertainty is infinite where nothing is
 *     known of it
 * @param spread relative standard spread from one conductor to the next
 * @param contactOhms mean of a fresh contact
 * @param contactU its standard uncertainty
 * @param armOhms resistors of the coded plug, by position from 0
 * @param armU relative standard uncertainty of each
 */
public record Setting(
    int ports,
    int metal,
    double pathOhms,
    double referenceOhms,
    double dividerOhms,
    Quantity common,
    double spread,
    double contactOhms,
    double contactU,
    double[] armOhms,
    double armU) {
  /** Of a conductor of which nothing is known: some ten to a hundred metres. Common practice. */
  static final double ANY_RUN_OHMS = 1.5;

  boolean commonKnown() {
    return Double.isFinite(common.value()) && Double.isFinite(common.u());
  }

  /** About what one conductor has. */
  double runOhms() {
    return commonKnown() ? Math.max(common.value(), 0) : ANY_RUN_OHMS;
  }
}
