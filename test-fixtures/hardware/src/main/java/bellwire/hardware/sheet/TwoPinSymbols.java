package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;

/** Symbols of parts with two pins, the first at the origin and the second right of it. */
final class TwoPinSymbols {
  private static final int LONG = 6;
  private static final int SHORT = 4;

  private TwoPinSymbols() {}

  static Symbol resistor() {
    return symbol("1", "2", LONG, 1, 0.8, List.of(Mark.rectangle(1, -0.8, 4, 1.6)));
  }

  static Symbol fuse() {
    return symbol(
        "1", "2", LONG, 1, 0.8, List.of(Mark.rectangle(1, -0.8, 4, 1.6), Mark.line(1, 0, 5, 0)));
  }

  static Symbol capacitor() {
    return symbol(
        "1",
        "2",
        SHORT,
        1.6,
        1.4,
        List.of(Mark.line(1.6, -1.4, 1.6, 1.4), Mark.line(2.4, -1.4, 2.4, 1.4)));
  }

  static Symbol inductor() {
    double[] points = new double[2 * 33];
    for (int i = 0; i <= 32; i++) {
      double angle = Math.PI * (i % 8 == 0 && i > 0 ? 8 : i % 8) / 8;
      double start = 1 + (i == 0 ? 0 : (i - 1) / 8);
      points[2 * i] = start + 0.5 - 0.5 * Math.cos(angle);
      points[2 * i + 1] = -0.8 * Math.sin(angle);
    }
    return symbol("1", "2", LONG, 1, 0.8, List.of(Mark.line(points)));
  }

  static Symbol diode(boolean schottky) {
    Mark bar =
        schottky
            ? Mark.line(2.3, -0.6, 2.3, -1, 2.8, -1, 2.8, 1, 3.3, 1, 3.3, 0.6)
            : Mark.line(2.8, -1, 2.8, 1);
    return symbol(
        "A",
        "K",
        SHORT,
        1.2,
        1,
        List.of(Mark.outline(1.2, -1, 2.8, 0, 1.2, 1), bar, Mark.line(1.2, 0, 2.8, 0)));
  }

  /** Two breakdown diodes, cathodes joined. */
  static Symbol clamp() {
    return symbol(
        "1",
        "2",
        LONG,
        1.2,
        1,
        List.of(
            Mark.outline(1.2, -1, 3, 0, 1.2, 1),
            Mark.outline(4.8, -1, 3, 0, 4.8, 1),
            Mark.line(2.5, -1.4, 3, -1, 3, 1, 3.5, 1.4)));
  }

  /** A resistor with two taps of its own, below. */
  static Symbol fourTerminalResistor() {
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.rectangle(1, -0.8, 6, 1.6));
    List<Symbol.Pin> pins = new ArrayList<>(inLine("1", "2", 8, 1));
    pins.add(new Symbol.Pin("S1", new Cell(2, 3), Direction.DOWN, 2.2));
    pins.add(new Symbol.Pin("S2", new Cell(6, 3), Direction.DOWN, 2.2));
    return new Symbol(
        marks, List.copyOf(pins), List.of(new Box(1, -0.8, 6, 1.6)), Symbol.Texts.IN_LINE);
  }

  private static Symbol symbol(
      String first, String second, int length, double lead, double half, List<Mark> marks) {
    return new Symbol(
        marks,
        inLine(first, second, length, lead),
        List.of(new Box(lead, -half, length - 2 * lead, 2 * half)),
        Symbol.Texts.IN_LINE);
  }

  private static List<Symbol.Pin> inLine(String first, String second, int length, double lead) {
    return List.of(
        new Symbol.Pin(first, new Cell(0, 0), Direction.LEFT, lead),
        new Symbol.Pin(second, new Cell(length, 0), Direction.RIGHT, lead));
  }
}
