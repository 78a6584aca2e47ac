package bellwire.hardware.budget;

import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A conductor's resistance by a plug at its far end: the reading of both as in {@link Rung}, less
 * the plug's arm and two contacts.
 *
 * @param plug in words
 * @param ohms of the conductor
 * @param readingU what the reading contributes
 */
public record ConductorBudget(String plug, double ohms, double readingU, ErrorBudget budget) {
  /** Half-width of a fresh contact, 2 to 20 mohm: common practice, no source. */
  private static final double CONTACT_OHMS = 0.009;

  private static final double PLUG_KELVIN = 15;
  private static final double OHMS = 0.5;

  public static List<ConductorBudget> all(BoardDescription board, CodedPlug plug) {
    List<ConductorBudget> budgets = new ArrayList<>();
    budgets.add(of(board, "tie plug", 0, 0, 0));
    for (int position : new int[] {1, 8, CodedPlug.POSITIONS}) {
      double arm = plug.armOhms(position);
      budgets.add(
          of(
              board,
              String.format(Locale.ROOT, "coded plug, %s ohm", trimmed(arm)),
              arm,
              plug.tolerance(),
              plug.ppmPerKelvin() * 1e-6 * PLUG_KELVIN));
    }
    return budgets;
  }

  private static String trimmed(double ohms) {
    return ohms == Math.rint(ohms)
        ? String.format(Locale.ROOT, "%.0f", ohms)
        : String.format(Locale.ROOT, "%.1f", ohms);
  }

  private static ConductorBudget of(
      BoardDescription board, String plug, double arm, double tolerance, double temperature) {
    ErrorBudget reading = Rung.of(board, OHMS + arm).budget();
    List<ErrorBudget.Line> lines = new ArrayList<>();
    lines.add(line("contact at the clamp", Shape.RECTANGULAR, CONTACT_OHMS));
    lines.add(line("contact at the plug", Shape.RECTANGULAR, CONTACT_OHMS));
    lines.add(line("arm's tolerance", Shape.RECTANGULAR, arm * tolerance));
    lines.add(line("arm's temperature", Shape.PRODUCT, arm * temperature));
    return new ConductorBudget(plug, OHMS, reading.u(), reading.and(lines));
  }

  private static ErrorBudget.Line line(String name, Shape shape, double ohms) {
    return new ErrorBudget.Line(new Input(name, shape, ohms, "ohm"), 1, 1);
  }
}
