package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What is taken on a sheet: by bodies and texts, by pins, by wires. */
final class Paper {
  static final int WIDTH = 218;
  static final int HEIGHT = 126;
  static final int FREE = -1;
  private static final double BODY_CLEARANCE = 0.6;
  private static final double TEXT_CLEARANCE = 0.35;

  private final boolean[][] blocked = new boolean[WIDTH + 1][HEIGHT + 1];
  private final int[][] pins = filled();
  private final int[][] rightward = filled();
  private final int[][] downward = filled();
  private final List<Box> boxes = new ArrayList<>();

  private static int[][] filled() {
    int[][] cells = new int[WIDTH + 1][HEIGHT + 1];
    for (int[] column : cells) {
      Arrays.fill(column, FREE);
    }
    return cells;
  }

  void body(Box box) {
    boxes.add(box);
    block(box.grown(BODY_CLEARANCE));
  }

  void text(Box box) {
    boxes.add(box);
    block(box.grown(TEXT_CLEARANCE));
  }

  /** The line from a body to a pin's end: taken but for the end. */
  void lead(Symbol.Pin pin) {
    Cell end = pin.end();
    double back = pin.length();
    boxes.add(
        Box.between(end.x(), end.y(), end.x() - pin.out().dx * back, end.y() - pin.out().dy * back)
            .grown(0.25));
    for (int i = 1; i < back; i++) {
      Cell cell = end.step(pin.out().opposite(), i);
      blocked[cell.x()][cell.y()] = true;
    }
  }

  void pin(Cell end, int wire) {
    pins[end.x()][end.y()] = wire;
    blocked[end.x()][end.y()] = false;
  }

  private void block(Box box) {
    for (int x = Math.max(0, (int) Math.ceil(box.x())); x <= Math.min(WIDTH, box.right()); x++) {
      for (int y = Math.max(0, (int) Math.ceil(box.y()));
          y <= Math.min(HEIGHT, box.bottom());
          y++) {
        if (pins[x][y] == FREE) {
          blocked[x][y] = true;
        }
      }
    }
  }

  boolean inside(Cell cell) {
    return cell.x() > 0 && cell.x() < WIDTH && cell.y() > 0 && cell.y() < HEIGHT;
  }

  /** Whether a wire may be at the cell, wires of others not looked at. */
  boolean open(Cell cell, int wire) {
    int pin = pins[cell.x()][cell.y()];
    return !blocked[cell.x()][cell.y()] && (pin == FREE || pin == wire);
  }

  /** The wire on the stretch from a cell to the next. */
  int wire(Cell from, Direction way) {
    return switch (way) {
      case RIGHT -> rightward[from.x()][from.y()];
      case DOWN -> downward[from.x()][from.y()];
      case LEFT -> rightward[from.x() - 1][from.y()];
      case UP -> downward[from.x()][from.y() - 1];
    };
  }

  void lay(Cell from, Direction way, int wire) {
    switch (way) {
      case RIGHT -> rightward[from.x()][from.y()] = wire;
      case DOWN -> downward[from.x()][from.y()] = wire;
      case LEFT -> rightward[from.x() - 1][from.y()] = wire;
      case UP -> downward[from.x()][from.y() - 1] = wire;
    }
  }

  /** Whether another wire than this one is at the cell. */
  boolean crossed(Cell cell, int wire) {
    for (Direction way : Direction.values()) {
      int there = wire(cell, way);
      if (there != FREE && there != wire) {
        return true;
      }
    }
    return false;
  }

  /** Whether another wire runs straight through the cell, across the given way. */
  boolean crossable(Cell cell, Direction way, int wire) {
    int along = wire(cell, way);
    int back = wire(cell, way.opposite());
    int left = wire(cell, way.turned(1));
    int right = wire(cell, way.turned(3));
    return (along == FREE || along == wire)
        && (back == FREE || back == wire)
        && left == right
        && left != FREE;
  }

  /** Whether nothing is in the box: no body, text, lead, pin's end or wire. */
  boolean empty(Box box) {
    if (box.x() < 0.5
        || box.y() < 0.5
        || box.right() > WIDTH - 0.5
        || box.bottom() > HEIGHT - 0.5) {
      return false;
    }
    for (Box taken : boxes) {
      if (taken.meets(box)) {
        return false;
      }
    }
    Box wide = box.grown(TEXT_CLEARANCE);
    for (int x = (int) Math.floor(wide.x()); x <= wide.right(); x++) {
      for (int y = (int) Math.floor(wide.y()); y <= wide.bottom(); y++) {
        if (taken(wide, x, y)) {
          return false;
        }
      }
    }
    return true;
  }

  private boolean taken(Box box, int x, int y) {
    if (x < 0 || y < 0) {
      return false;
    }
    boolean pin = pins[x][y] != FREE && box.holds(x, y);
    boolean across = rightward[x][y] != FREE && y > box.y() && x + 1 > box.x() && x < box.right();
    boolean down = downward[x][y] != FREE && x > box.x() && y + 1 > box.y() && y < box.bottom();
    return pin || (across && y < box.bottom()) || (down && x < box.right());
  }
}
