package bellwire.analysis.fault;

/**
 * How often each fault is expected before anything is measured, and how large: the one place for
 * it. Common practice, no source; odds between explanations move with these figures, but a fault
 * that the readings show by ten standard uncertainties does not.
 *
 * @param joint share of conductors with a joint that matters
 * @param open share of conductors that are broken
 * @param touching share of broken conductors that touch another one at the break
 * @param touch share of conductors bridged to another, or to metal, by less than a kilohm
 * @param unexplained share of groups of conductors with a fault that none of these is
 * @param logBridgeOhms mean of the natural logarithm of a bridge's resistance in ohm
 * @param logBridgeSpread its standard deviation
 * @param logJointOhms mean of the natural logarithm of a joint's resistance in ohm
 * @param logJointSpread its standard deviation
 */
public record FaultPriors(
    double joint,
    double open,
    double touching,
    double touch,
    double unexplained,
    double logBridgeOhms,
    double logBridgeSpread,
    double logJointOhms,
    double logJointSpread) {

  public static FaultPriors standard() {
    return new FaultPriors(0.02, 0.01, 0.1, 0.02, 1e-6, 0, 3, 0, 2.5);
  }
}
