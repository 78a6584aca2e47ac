package bellwire.analysis.survey;

import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import bellwire.analysis.uncertainty.Quantity;

/**
 * A conductor's resistance from its arm of the star: less the plug's resistor, less the two
 * contacts. Theory (22).
 */
public final class ConductorResistance {
  private ConductorResistance() {}

  /** With the tie plug. */
  public static Quantity withTie(Quantity arm, Criteria criteria) {
    return Quantity.ohms(
        arm.value() - 2 * criteria.contactOhms(), Math.hypot(arm.u(), contacts(criteria)));
  }

  /** With the coded plug, the position known. */
  public static Quantity withCoded(Quantity arm, Place place, Plug plug, Criteria criteria) {
    int p = place.position() - 1;
    double u = Math.hypot(Math.hypot(arm.u(), plug.u(p)), contacts(criteria));
    return Quantity.ohms(arm.value() - plug.armOhms()[p] - 2 * criteria.contactOhms(), u);
  }

  private static double contacts(Criteria criteria) {
    return Math.sqrt(2) * criteria.contactHalfWidthOhms() / Math.sqrt(3);
  }

  /** The whole budget with the tie plug: the reading's own and the two contacts. */
  public static Budget budgetWithTie(Budget reading, Criteria criteria) {
    return reading
        .and(new Line("clamp at the port", Shape.RECTANGULAR, criteria.contactHalfWidthOhms()))
        .and(new Line("contact at the plug", Shape.RECTANGULAR, criteria.contactHalfWidthOhms()));
  }

  /** The whole budget with the coded plug. */
  public static Budget budgetWithCoded(Budget reading, int position, Plug plug, Criteria criteria) {
    double arm = plug.armOhms()[position - 1];
    return budgetWithTie(reading, criteria)
        .and(new Line("plug's resistor", Shape.RECTANGULAR, arm * plug.tolerance()))
        .and(new Line("plug's temperature", Shape.PRODUCT, arm * plug.temperatureHalfWidth()));
  }
}
