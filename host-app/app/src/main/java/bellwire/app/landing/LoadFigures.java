package bellwire.app.landing;

import bellwire.analysis.loop.Load;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import org.hipparchus.complex.Complex;

/**
 * The electrical figures of a load: what its file says, and otherwise what is common for its kind.
 * All defaults are common practice without a source, at 24 V.
 *
 * @param inrushVoltAmperes before it has pulled in
 * @param inrushFactor power factor then
 * @param holdingVoltAmperes once it has
 * @param holdingFactor power factor then
 * @param pickUpVolts pulls in from here
 * @param holdInVolts has dropped out below
 * @param mostVolts stands it for long
 */
record LoadFigures(
    double inrushVoltAmperes,
    double inrushFactor,
    double holdingVoltAmperes,
    double holdingFactor,
    double pickUpVolts,
    double holdInVolts,
    double mostVolts) {
  private static final double RATED_VOLTS = 24;

  private static LoadFigures usual(Load.Kind kind) {
    return switch (kind) {
      case CONTACTOR -> new LoadFigures(50, 0.6, 8, 0.35, 19, 12, 28.5);
      case RELAY -> new LoadFigures(4, 0.8, 3, 0.7, 18, 10, 28.5);
      case GAS_VALVE -> new LoadFigures(10, 0.7, 10, 0.7, 19, 10, 30);
      case REVERSING_VALVE -> new LoadFigures(12, 0.6, 6, 0.5, 19, 12, 28.5);
      case BOARD_INPUT -> new LoadFigures(0.4, 1, 0.4, 1, 16, 8, 30);
      case MOTOR -> new LoadFigures(8, 0.8, 8, 0.8, 18, 12, 28.5);
      case ACCESSORY -> new LoadFigures(6, 0.8, 6, 0.8, 18, 12, 28.5);
    };
  }

  /** Those of a load's section, with what is usual where it says nothing. */
  static LoadFigures of(Section load, Load.Kind kind) throws FileException {
    LoadFigures usual = usual(kind);
    double holding = power(load, "holding", usual.holdingVoltAmperes);
    double inrush =
        power(
            load,
            "inrush",
            load.has("holding")
                ? holding * usual.inrushVoltAmperes / usual.holdingVoltAmperes
                : usual.inrushVoltAmperes);
    LoadFigures figures =
        new LoadFigures(
            inrush,
            load.number("inrush-power-factor", 0.05, 1, usual.inrushFactor),
            holding,
            load.number("power-factor", 0.05, 1, usual.holdingFactor),
            load.quantity("pick-up", Dimension.VOLTAGE, 1, 60, usual.pickUpVolts),
            load.quantity("hold-in", Dimension.VOLTAGE, 0.5, 60, usual.holdInVolts),
            load.quantity("most", Dimension.VOLTAGE, 1, 120, usual.mostVolts));
    if (figures.holdInVolts > figures.pickUpVolts) {
      throw load.problemHere(
          "it would drop out where it has pulled in: hold-in is above pick-up",
          "let hold-in be the lower one");
    }
    return figures;
  }

  private static double power(Section load, String key, double absent) throws FileException {
    return load.quantity(key, Dimension.APPARENT_POWER, 0.01, 500, absent);
  }

  Complex inrush() {
    return impedance(inrushVoltAmperes, inrushFactor);
  }

  Complex holding() {
    return impedance(holdingVoltAmperes, holdingFactor);
  }

  /** An inductive load's series impedance: |Z| = V²/S, at the angle whose cosine is the factor. */
  private static Complex impedance(double voltAmperes, double factor) {
    double ohms = RATED_VOLTS * RATED_VOLTS / voltAmperes;
    return new Complex(ohms * factor, ohms * Math.sqrt(1 - factor * factor));
  }
}
