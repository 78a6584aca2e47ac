package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;

/** A stroke or a text of a symbol. */
sealed interface Mark {
  Mark turned(Orientation orientation, double dx, double dy);

  /**
   * Straight strokes.
   *
   * @param points x and y in turn
   */
  record Strokes(List<Double> points, boolean closed, boolean filled) implements Mark {
    @Override
    public Mark turned(Orientation o, double dx, double dy) {
      List<Double> moved = new ArrayList<>();
      for (int i = 0; i < points.size(); i += 2) {
        moved.add(o.x(points.get(i), points.get(i + 1)) + dx);
        moved.add(o.y(points.get(i), points.get(i + 1)) + dy);
      }
      return new Strokes(moved, closed, filled);
    }
  }

  record Circle(double x, double y, double radius) implements Mark {
    @Override
    public Mark turned(Orientation o, double dx, double dy) {
      return new Circle(o.x(x, y) + dx, o.y(x, y) + dy, radius);
    }
  }

  /**
   * A text.
   *
   * @param anchor as in {@link Lettering#box}
   */
  record Word(String text, double x, double y, int anchor) implements Mark {
    @Override
    public Mark turned(Orientation o, double dx, double dy) {
      int side = o.quarters() == 2 ? -anchor : anchor;
      return new Word(text, o.x(x, y) + dx, o.y(x, y) + dy, side);
    }
  }

  static Mark line(double... points) {
    return new Strokes(list(points), false, false);
  }

  static Mark outline(double... points) {
    return new Strokes(list(points), true, false);
  }

  static Mark solid(double... points) {
    return new Strokes(list(points), true, true);
  }

  static Mark rectangle(double x, double y, double width, double height) {
    return outline(x, y, x + width, y, x + width, y + height, x, y + height);
  }

  private static List<Double> list(double... points) {
    List<Double> list = new ArrayList<>();
    for (double point : points) {
      list.add(point);
    }
    return list;
  }
}
