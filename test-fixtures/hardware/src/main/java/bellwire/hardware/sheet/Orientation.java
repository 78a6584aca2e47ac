package bellwire.hardware.sheet;

/**
 * How a symbol is turned: first mirrored at its horizontal axis, then turned clockwise.
 *
 * @param quarters quarters of a turn
 */
record Orientation(int quarters, boolean mirrored) {
  static final Orientation UPRIGHT = new Orientation(0, false);

  /**
   * @param text r, d, l or u: where the symbol's right side points; m behind it mirrors
   */
  static Orientation of(String text) {
    int quarters = "rdlu".indexOf(text.charAt(0));
    if (quarters < 0 || text.length() > 2 || (text.length() == 2 && text.charAt(1) != 'm')) {
      throw new IllegalArgumentException("sheets-a.yaml: orientation=" + text);
    }
    return new Orientation(quarters, text.length() == 2);
  }

  double x(double x, double y) {
    double v = mirrored ? -y : y;
    return switch (quarters) {
      case 0 -> x;
      case 1 -> -v;
      case 2 -> -x;
      default -> v;
    };
  }

  double y(double x, double y) {
    double v = mirrored ? -y : y;
    return switch (quarters) {
      case 0 -> v;
      case 1 -> x;
      case 2 -> -v;
      default -> -x;
    };
  }

  Direction turned(Direction direction) {
    Direction first = mirrored && !direction.horizontal() ? direction.opposite() : direction;
    return first.turned(quarters);
  }

  Box turned(Box box) {
    return Box.between(
        x(box.x(), box.y()),
        y(box.x(), box.y()),
        x(box.right(), box.bottom()),
        y(box.right(), box.bottom()));
  }
}
