package bellwire.hardware.sheet;

/** Clockwise, as y points down. */
enum Direction {
  RIGHT(0, 1, 0),
  DOWN(1, 0, 1),
  LEFT(2, -1, 0),
  UP(3, 0, -1);

  private static final Direction[] ALL = values();

  /** Quarters of a turn from the right. */
  final int quarter;

  final int dx;
  final int dy;

  Direction(int quarter, int dx, int dy) {
    this.quarter = quarter;
    this.dx = dx;
    this.dy = dy;
  }

  Direction turned(int quarters) {
    return ALL[(quarter + quarters) % ALL.length];
  }

  Direction opposite() {
    return turned(2);
  }

  boolean horizontal() {
    return dy == 0;
  }
}
