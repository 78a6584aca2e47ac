package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Pins of a net that a sheet joins, and the way the wire takes. */
final class Wire {
  /** A stretch from a cell to the next, to the right or down. */
  record Stretch(Cell from, Direction way) {
    static Stretch of(Cell from, Direction way) {
      return way == Direction.RIGHT || way == Direction.DOWN
          ? new Stretch(from, way)
          : new Stretch(from.step(way, 1), way.opposite());
    }

    Cell to() {
      return from.step(way, 1);
    }
  }

  private final int number;
  private final String net;
  private final Map<Cell, Direction> ends = new LinkedHashMap<>();
  private final Set<Stretch> stretches = new LinkedHashSet<>();

  /**
   * @param number as it is marked on the paper
   */
  Wire(int number, String net) {
    this.number = number;
    this.net = net;
  }

  int number() {
    return number;
  }

  String net() {
    return net;
  }

  /** What it joins, with the way out of each. */
  Map<Cell, Direction> ends() {
    return ends;
  }

  Set<Stretch> stretches() {
    return stretches;
  }

  void lay(Cell from, Direction way, Paper paper) {
    stretches.add(Stretch.of(from, way));
    paper.lay(from, way, number);
  }

  void lift(Paper paper) {
    for (Stretch stretch : stretches) {
      paper.lay(stretch.from(), stretch.way(), Paper.FREE);
    }
    stretches.clear();
  }

  Set<Cell> cells() {
    Set<Cell> cells = new LinkedHashSet<>();
    for (Stretch stretch : stretches) {
      cells.add(stretch.from());
      cells.add(stretch.to());
    }
    if (cells.isEmpty()) {
      cells.addAll(ends.keySet());
    }
    return cells;
  }

  /** Wires and leads that meet at a cell. */
  int degree(Cell cell) {
    int degree = ends.containsKey(cell) ? 1 : 0;
    for (Direction way : Direction.values()) {
      if (stretches.contains(Stretch.of(cell, way))) {
        degree++;
      }
    }
    return degree;
  }

  /** Straight lines, each as its two ends. */
  List<List<Cell>> lines() {
    List<List<Cell>> lines = new ArrayList<>();
    for (Stretch stretch : stretches) {
      Stretch before = new Stretch(stretch.from().step(stretch.way(), -1), stretch.way());
      if (stretches.contains(before)) {
        continue;
      }
      Cell end = stretch.to();
      while (stretches.contains(new Stretch(end, stretch.way()))) {
        end = end.step(stretch.way(), 1);
      }
      lines.add(List.of(stretch.from(), end));
    }
    return lines;
  }
}
