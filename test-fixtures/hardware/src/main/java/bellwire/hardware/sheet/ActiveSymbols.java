package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;

/** Symbols of transistors, amplifiers and what an LED switches. */
final class ActiveSymbols {
  private ActiveSymbols() {}

  /** Gate at the origin; an n-channel one has its drain above, a p-channel one its source. */
  static Symbol mosfet(boolean pChannel) {
    List<Mark> marks =
        List.of(
            Mark.line(0, 0, 2, 0),
            Mark.line(2, -1.6, 2, 1.6),
            Mark.line(2.6, -1.8, 2.6, -0.9),
            Mark.line(2.6, -0.45, 2.6, 0.45),
            Mark.line(2.6, 0.9, 2.6, 1.8),
            Mark.line(2.6, -1.35, 4, -1.35, 4, -2.2),
            Mark.line(2.6, 1.35, 4, 1.35, 4, 2.2),
            Mark.line(2.6, 0, 4, 0, 4, pChannel ? -1.35 : 1.35),
            pChannel
                ? Mark.solid(4, 0, 3.2, -0.4, 3.2, 0.4)
                : Mark.solid(2.6, 0, 3.4, -0.4, 3.4, 0.4));
    return transistor("G", pChannel ? "S" : "D", pChannel ? "D" : "S", marks);
  }

  /** Base at the origin; an NPN has its collector above, a PNP its emitter. */
  static Symbol bipolar(boolean pnp) {
    List<Mark> marks =
        List.of(
            Mark.line(0, 0, 2, 0),
            Mark.line(2, -1.7, 2, 1.7),
            Mark.line(2, -0.6, 4, -1.8, 4, -2.2),
            Mark.line(2, 0.6, 4, 1.8, 4, 2.2),
            pnp
                ? Mark.solid(2.3, -0.78, 2.77, -1.57, 3.23, -0.99)
                : Mark.solid(3.7, 1.62, 2.77, 1.57, 3.23, 0.85));
    return transistor("B", pnp ? "E" : "C", pnp ? "C" : "E", marks);
  }

  private static Symbol transistor(String control, String upper, String lower, List<Mark> marks) {
    return new Symbol(
        marks,
        List.of(
            new Symbol.Pin(control, new Cell(0, 0), Direction.LEFT, 1.5),
            new Symbol.Pin(upper, new Cell(4, -4), Direction.UP, 1.8),
            new Symbol.Pin(lower, new Cell(4, 4), Direction.DOWN, 1.8)),
        List.of(new Box(1.5, -2.2, 2.9, 4.4)),
        Symbol.Texts.BESIDE);
  }

  /**
   * Inputs left, output right, supplies above and below.
   *
   * @param plusBelow the non-inverting input is the lower one
   * @param openOutput marked as one that only pulls down
   */
  static Symbol amplifier(boolean comparator, boolean openOutput, boolean plusBelow) {
    double plus = plusBelow ? 2 : -2;
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.outline(1.5, -4, 1.5, 4, 8.5, 0));
    marks.add(Mark.line(2.1, plus, 3.3, plus));
    marks.add(Mark.line(2.7, plus - 0.6, 2.7, plus + 0.6));
    marks.add(Mark.line(2.1, -plus, 3.3, -plus));
    if (comparator) {
      marks.add(Mark.line(3.6, 0.6, 4.4, 0.6, 4.4, -0.6, 5.2, -0.6));
    }
    if (openOutput) {
      marks.add(Mark.outline(6.2, -0.6, 6.8, 0, 6.2, 0.6, 5.6, 0));
      marks.add(Mark.line(5.6, 0.85, 6.8, 0.85));
    }
    return new Symbol(
        marks,
        List.of(
            new Symbol.Pin("IN+", new Cell(0, (int) plus), Direction.LEFT, 1.5),
            new Symbol.Pin("IN-", new Cell(0, (int) -plus), Direction.LEFT, 1.5),
            new Symbol.Pin("OUT", new Cell(10, 0), Direction.RIGHT, 1.5),
            new Symbol.Pin("V+", new Cell(5, -5), Direction.UP, 3),
            new Symbol.Pin("V-", new Cell(5, 5), Direction.DOWN, 3)),
        List.of(new Box(1.5, -4, 3.5, 8), new Box(5, -2, 3.5, 4)),
        Symbol.Texts.AMPLIFIER);
  }

  /** Cathode at the origin, anode below, its reference left. */
  static Symbol shuntRegulator() {
    return new Symbol(
        List.of(
            Mark.outline(-1.1, 4, 1.1, 4, 0, 2.2),
            Mark.line(-1.5, 2.7, -1.1, 2.2, 1.1, 2.2, 1.5, 1.7),
            Mark.line(0, 1.7, 0, 4.3),
            Mark.line(-1.5, 3.1, -0.55, 3.1)),
        List.of(
            new Symbol.Pin("K", new Cell(0, 0), Direction.UP, 1.7),
            new Symbol.Pin("A", new Cell(0, 6), Direction.DOWN, 1.7),
            new Symbol.Pin("REF", new Cell(-3, 3), Direction.LEFT, 1.5)),
        List.of(new Box(-1.5, 1.7, 3, 2.6)),
        Symbol.Texts.BESIDE);
  }

  /** An LED left, what it switches right, names of the two right pins given. */
  static Symbol photovoltaic() {
    List<Mark> marks = led();
    marks.add(Mark.line(7, -0.5, 7, 1.6, 5.8, 1.6, 8.2, 1.6));
    marks.add(Mark.line(6.4, 2.3, 7.6, 2.3));
    marks.add(Mark.line(7, 2.3, 7, 4.5));
    marks.add(Mark.line(7, 0, 8.5, 0));
    marks.add(Mark.line(7, 4, 8.5, 4));
    return lit(marks, "G", "S");
  }

  static Symbol solidStateRelay() {
    List<Mark> marks = led();
    marks.add(Mark.line(8.5, 0, 7, 0, 7, 0.9));
    marks.add(Mark.line(5.9, 0.9, 7, 3));
    marks.add(Mark.line(7, 3, 7, 4, 8.5, 4));
    return lit(marks, "1", "2");
  }

  static Symbol optocoupler() {
    List<Mark> marks = led();
    marks.add(Mark.line(6.3, 0.9, 6.3, 3.1));
    marks.add(Mark.line(6.3, 1.6, 7.5, 0.7, 7.5, 0, 8.5, 0));
    marks.add(Mark.line(6.3, 2.4, 7.5, 3.3, 7.5, 4, 8.5, 4));
    marks.add(Mark.solid(7.4, 3.23, 6.65, 3.05, 7.0, 2.55));
    return lit(marks, "C", "E");
  }

  private static List<Mark> led() {
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.rectangle(1.5, -1.5, 7, 7));
    marks.add(Mark.line(1.5, 0, 3, 0, 3, 4, 1.5, 4));
    marks.add(Mark.outline(2.2, 1.3, 3.8, 1.3, 3, 2.7));
    marks.add(Mark.line(2.2, 2.7, 3.8, 2.7));
    for (int i = 0; i < 2; i++) {
      double y = 1.5 + 0.9 * i;
      marks.add(Mark.line(4.1, y, 5.1, y));
      marks.add(Mark.solid(5.5, y, 4.9, y - 0.25, 4.9, y + 0.25));
    }
    return marks;
  }

  private static Symbol lit(List<Mark> marks, String upper, String lower) {
    return new Symbol(
        marks,
        List.of(
            new Symbol.Pin("A", new Cell(0, 0), Direction.LEFT, 1.5),
            new Symbol.Pin("K", new Cell(0, 4), Direction.LEFT, 1.5),
            new Symbol.Pin(upper, new Cell(10, 0), Direction.RIGHT, 1.5),
            new Symbol.Pin(lower, new Cell(10, 4), Direction.RIGHT, 1.5)),
        List.of(new Box(1.5, -1.5, 7, 7)),
        Symbol.Texts.ABOVE);
  }

  /** A loop or a socket, its pin below. */
  static Symbol terminal() {
    return new Symbol(
        List.of(new Mark.Circle(0, -2.8, 0.8)),
        List.of(new Symbol.Pin("1", new Cell(0, 0), Direction.DOWN, 2)),
        List.of(new Box(-0.8, -3.6, 1.6, 1.6)),
        Symbol.Texts.BESIDE);
  }
}
