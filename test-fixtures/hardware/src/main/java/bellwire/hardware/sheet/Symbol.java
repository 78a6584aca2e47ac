package bellwire.hardware.sheet;

import java.util.List;

/**
 * A part's symbol, or that of one of its units.
 *
 * @param bodies what no wire and no text may enter
 */
record Symbol(List<Mark> marks, List<Pin> pins, List<Box> bodies, Texts texts) {
  /** Where designator, value and kind stand. */
  enum Texts {
    /** Beside a part with its pins in one line: whichever side is free. */
    IN_LINE,
    /** Right of a transistor's pins. */
    BESIDE,
    /** Designator right of the upper supply pin, kind right of the lower one. */
    AMPLIFIER,
    /** Above a box, at its left end. */
    ABOVE
  }

  /**
   * @param end where a wire may begin
   * @param out the way from the body to the end
   * @param length from the body to the end
   */
  record Pin(String name, Cell end, Direction out, double length) {}

  Symbol turned(Orientation o, int dx, int dy) {
    return new Symbol(
        marks.stream().map(mark -> mark.turned(o, dx, dy)).toList(),
        pins.stream().map(pin -> turned(pin, o, dx, dy)).toList(),
        bodies.stream().map(box -> o.turned(box).moved(dx, dy)).toList(),
        texts);
  }

  private static Pin turned(Pin pin, Orientation o, int dx, int dy) {
    Cell end = pin.end();
    return new Pin(
        pin.name(),
        new Cell(
            (int) Math.round(o.x(end.x(), end.y())) + dx,
            (int) Math.round(o.y(end.x(), end.y())) + dy),
        o.turned(pin.out()),
        pin.length());
  }

  /** The smallest box that holds all bodies. */
  Box body() {
    double x = bodies.stream().mapToDouble(Box::x).min().orElseThrow();
    double y = bodies.stream().mapToDouble(Box::y).min().orElseThrow();
    double right = bodies.stream().mapToDouble(Box::right).max().orElseThrow();
    double bottom = bodies.stream().mapToDouble(Box::bottom).max().orElseThrow();
    return Box.between(x, y, right, bottom);
  }
}
