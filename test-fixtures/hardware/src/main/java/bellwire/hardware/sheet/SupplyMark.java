package bellwire.hardware.sheet;

import java.util.List;

/** A supply's symbol at a pin: a bar above it, or a bar or a common's triangle below. */
record SupplyMark(String net, Cell end, boolean above) {
  private static final double HALF = 1.1;

  PartTexts.Line text() {
    double depth = above ? -1.6 : common() ? 2.7 : 1.7;
    return new PartTexts.Line(net, end.x(), end.y() + depth, 0);
  }

  Box body() {
    double height = common() ? 1.1 : 0.3;
    return new Box(end.x() - HALF, above ? end.y() - height : end.y(), 2 * HALF, height);
  }

  List<Mark> marks() {
    double x = end.x();
    double y = end.y();
    return List.of(
        common()
            ? Mark.outline(x - HALF, y, x + HALF, y, x, y + 1.1)
            : Mark.line(x - HALF, y, x + HALF, y));
  }

  private boolean common() {
    return net.equals("COM") || net.equals("XC");
  }
}
