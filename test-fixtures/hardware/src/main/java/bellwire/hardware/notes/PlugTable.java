package bellwire.hardware.notes;

import bellwire.board.CodedPlug;
import java.util.Locale;

/** The coded plug's arms: what a meter has to show, and what each may be off by. */
final class PlugTable {
  /** Half-width of the plug's temperature about 20 °C in a house, as the host takes it. */
  static final double KELVIN = 15;

  private PlugTable() {}

  /** Half-width of an arm as bought, at 20 °C. */
  static double toleranceOhms(CodedPlug plug, int position) {
    return plug.armOhms(position) * plug.tolerance();
  }

  static double driftOhms(CodedPlug plug, int position) {
    return plug.armOhms(position) * plug.ppmPerKelvin() * 1e-6 * KELVIN;
  }

  static double smallestStepOhms(CodedPlug plug) {
    double step = Double.POSITIVE_INFINITY;
    for (int p = 2; p <= CodedPlug.POSITIONS; p++) {
      step = Math.min(step, plug.armOhms(p) - plug.armOhms(p - 1));
    }
    return step;
  }

  static String text(CodedPlug plug) {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Coded plug

            From coded-plug.yaml. Between a far position and the common point: four-wire, at 20 °C, by a meter that is better than %.0f
            millionths there. 'Drift' is what %.0f K do at most. The step is that to the arm before.

            | position | ohm | from | to | drift, mohm | step, ohm |
            |---|---|---|---|---|---|
            """,
            1e6 * plug.calibrationError(),
            KELVIN));
    for (int p = 1; p <= CodedPlug.POSITIONS; p++) {
      double ohms = plug.armOhms(p);
      double tolerance = toleranceOhms(plug, p);
      out.append(
          String.format(
              Locale.ROOT,
              "| %d | %s | %.3f | %.3f | %.0f | %s |%n",
              p,
              trimmed(ohms),
              ohms - tolerance,
              ohms + tolerance,
              1000 * driftOhms(plug, p),
              p == 1 ? "" : trimmed(ohms - plug.armOhms(p - 1))));
    }
    return out.toString();
  }

  private static String trimmed(double ohms) {
    return String.format(Locale.ROOT, "%.1f", ohms).replaceAll("\\.0$", "");
  }
}
