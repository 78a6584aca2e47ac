package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import java.util.Optional;

/**
 * Figures that stand as they are in {@code sensing-board-a.yaml}: {@code value-} and the name of a
 * value, {@code off-} and the same for its tolerance, {@code bound-} and the name of a limit.
 */
final class FileFigures {
  private static final double LEAST_VOLTS = 0.1;
  private static final int DIGITS = 4;

  private FileFigures() {}

  static Optional<String> text(BoardDescription board, String figure) {
    int dash = figure.indexOf('-');
    String name = figure.substring(dash + 1);
    return switch (figure.substring(0, Math.max(0, dash))) {
      case "value" -> Optional.of(printed(board.nominal(name), name));
      case "off" -> Optional.of(printed(board.value(name).tolerance(), name));
      case "bound" -> Optional.of(printed(board.limit(name), name));
      default -> Optional.empty();
    };
  }

  private static String printed(double value, String name) {
    return switch (name.substring(name.lastIndexOf('-') + 1)) {
      case "volts" -> volts(value);
      case "ohms" -> Engineering.text(value, "ohm", DIGITS);
      case "farads" -> Engineering.text(value, "F", DIGITS);
      case "amps" -> Engineering.text(value, "A", DIGITS);
      case "watts" -> Engineering.text(value, "W", DIGITS);
      case "micros" -> Engineering.text(1e-6 * value, "s", DIGITS);
      default -> throw new IllegalArgumentException("no unit for name=" + name);
    };
  }

  private static String volts(double value) {
    return Math.abs(value) >= LEAST_VOLTS
        ? Engineering.fixed(value, 2).replaceAll("\\.?0+$", "") + " V"
        : Engineering.text(value, "V", DIGITS);
  }
}
