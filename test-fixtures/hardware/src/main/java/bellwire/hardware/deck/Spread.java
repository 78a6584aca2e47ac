package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Part;
import bellwire.hardware.ValueExpression;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * Draws the parts of a deck within their spreads, rectangular: values that {@code
 * sensing-board-a.yaml} names within its tolerances, others within those of {@code parts-a.yaml}.
 */
final class Spread {
  private static final double REFERENCE_VOLTS = 2.048;
  private static final double SHUNT_VOLTS = 1.24;

  private final BoardDescription board;
  private final Random random;

  Spread(BoardDescription board, Random random) {
    this.board = board;
    this.random = random;
  }

  /** Adds the alterations that make the part another one of its kind. */
  void draw(Part part, List<String> control) {
    ValueExpression value = part.value();
    Double relative = part.line().spread().get("relative");
    Double offset = part.line().spread().get("offset-volts");
    if (value != null && !value.names().isEmpty()) {
      double ohms = value.of(name -> board.nominal(name) + within(board.value(name).tolerance()));
      alter("r_" + part.ref(), ohms, control);
    } else if (value != null && relative != null) {
      alter("r_" + part.ref(), value.of(board::nominal) * (1 + within(relative)), control);
    } else if (part.line().kind().equals("reference") && relative != null) {
      alter("v_" + part.ref() + "_flt", REFERENCE_VOLTS * within(relative), control);
    } else if (part.line().kind().equals("shunt-regulator") && relative != null) {
      alter("v_" + part.ref() + "_flt", SHUNT_VOLTS * within(relative), control);
    } else if (offset != null) {
      alter("v_" + part.ref() + "_flt", within(offset), control);
    }
  }

  double within(double halfWidth) {
    return halfWidth * (2 * random.nextDouble() - 1);
  }

  static void alter(String element, double value, List<String> control) {
    control.add(
        String.format(Locale.ROOT, "alter %s = %.9g", element.toLowerCase(Locale.ROOT), value));
  }
}
