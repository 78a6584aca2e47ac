package bellwire.hardware.sheet;

/** A crossing of the grid. */
record Cell(int x, int y) {
  Cell step(Direction direction, int count) {
    return new Cell(x + direction.dx * count, y + direction.dy * count);
  }

  int distance(Cell other) {
    return Math.abs(x - other.x) + Math.abs(y - other.y);
  }
}
