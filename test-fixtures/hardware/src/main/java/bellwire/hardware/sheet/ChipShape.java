package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * A box with named pins; the first pin of its left side, or else of its right one, at the origin.
 *
 * @param left names from above; an empty one leaves a place free, as on every side
 * @param mark what stands in the box in place of the pins' names; empty: the names
 * @param bubbles outputs that are inverted
 * @param least the box's least width
 */
record ChipShape(
    List<String> left,
    List<String> right,
    List<String> top,
    List<String> bottom,
    String mark,
    List<String> bubbles,
    int least) {
  private static final int LEAD = 2;
  private static final double MARGIN = 0.5;

  List<String> names() {
    return Stream.of(left, right, top, bottom)
        .flatMap(List::stream)
        .filter(name -> !name.isEmpty())
        .toList();
  }

  /** The same with left and right exchanged. */
  ChipShape turned() {
    return new ChipShape(/* left= */ right, /* right= */ left, top, bottom, mark, bubbles, least);
  }

  Symbol symbol() {
    int x = left.isEmpty() ? -LEAD - width() : LEAD;
    int head = named() && !top.isEmpty() ? 4 : 2;
    int foot = named() && !bottom.isEmpty() ? 4 : 2;
    int rows = Math.max(1, Math.max(left.size(), right.size()));
    Box body = new Box(x, -head, width(), head + pitch() * (rows - 1) + foot);
    List<Mark> marks = new ArrayList<>();
    marks.add(Mark.rectangle(body.x(), body.y(), body.width(), body.height()));
    if (!named()) {
      double middle = body.x() + body.width() / 2;
      marks.add(new Mark.Word(mark, middle, body.y() + 1.6, 0));
    }
    List<Symbol.Pin> pins = new ArrayList<>();
    side(left, Direction.LEFT, body, pins, marks);
    side(right, Direction.RIGHT, body, pins, marks);
    row(top, Direction.UP, body, pins, marks);
    row(bottom, Direction.DOWN, body, pins, marks);
    return new Symbol(marks, pins, List.of(body), Symbol.Texts.ABOVE);
  }

  private boolean named() {
    return mark.isEmpty();
  }

  /** Labels at the pins of a gate are few; elsewhere an underscore must stand clear of the next. */
  private int pitch() {
    return named() ? 3 : 2;
  }

  private int width() {
    double width = named() ? widest(left) + widest(right) + 3 * MARGIN : 4;
    int across = 4 * Math.max(top.size(), bottom.size());
    return 2 * (int) Math.ceil(Math.max(Math.max(width, across), least) / 2);
  }

  private static double widest(List<String> names) {
    return names.stream().mapToDouble(Lettering::width).max().orElse(0);
  }

  private void side(
      List<String> names, Direction out, Box body, List<Symbol.Pin> pins, List<Mark> marks) {
    boolean right = out == Direction.RIGHT;
    double edge = right ? body.right() : body.x();
    for (int i = 0; i < names.size(); i++) {
      String name = names.get(i);
      if (name.isEmpty()) {
        continue;
      }
      int y = pitch() * i;
      pins.add(pin(name, new Cell((int) edge + out.dx * LEAD, y), out, marks));
      if (named()) {
        marks.add(new Mark.Word(name, edge - out.dx * MARGIN, y, right ? 1 : -1));
      }
    }
  }

  private void row(
      List<String> names, Direction out, Box body, List<Symbol.Pin> pins, List<Mark> marks) {
    double edge = out == Direction.UP ? body.y() : body.bottom();
    for (int i = 0; i < names.size(); i++) {
      String name = names.get(i);
      if (name.isEmpty()) {
        continue;
      }
      double space = body.width() / (names.size() + 1);
      int x = (int) Math.round(body.x() + space * (i + 1));
      pins.add(pin(name, new Cell(x, (int) edge + out.dy * LEAD), out, marks));
      if (named()) {
        marks.add(new Mark.Word(name, x, edge - out.dy * 1.5, 0));
      }
    }
  }

  private Symbol.Pin pin(String name, Cell end, Direction out, List<Mark> marks) {
    if (!bubbles.contains(name)) {
      return new Symbol.Pin(name, end, out, LEAD);
    }
    double back = LEAD - 0.4;
    marks.add(new Mark.Circle(end.x() - out.dx * back, end.y() - out.dy * back, 0.4));
    return new Symbol.Pin(name, end, out, LEAD - 0.8);
  }
}
