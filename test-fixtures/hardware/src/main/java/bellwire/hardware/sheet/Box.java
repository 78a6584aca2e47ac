package bellwire.hardware.sheet;

/** An upright rectangle; x and y are its upper left corner. */
record Box(double x, double y, double width, double height) {
  static Box between(double x1, double y1, double x2, double y2) {
    return new Box(Math.min(x1, x2), Math.min(y1, y2), Math.abs(x2 - x1), Math.abs(y2 - y1));
  }

  Box grown(double by) {
    return new Box(x - by, y - by, width + 2 * by, height + 2 * by);
  }

  Box moved(double dx, double dy) {
    return new Box(x + dx, y + dy, width, height);
  }

  double right() {
    return x + width;
  }

  double bottom() {
    return y + height;
  }

  boolean meets(Box other) {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
  }

  boolean holds(double px, double py) {
    return px > x && px < right() && py > y && py < bottom();
  }
}
