package bellwire.hardware.sheet;

import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.TreeSet;

/**
 * Finds upright ways for wires: the cheapest by length, corners, crossings and closeness to others
 * (Lee's maze search with costs, after Hart, Nilsson and Raphael).
 */
final class Router {
  private static final int STEP = 10;
  private static final int CORNER = 35;
  private static final int CROSSING = 60;
  private static final int CLOSE = 8;
  private static final int BRANCH = 5;
  private static final int ROUNDS = 2;
  private static final Direction[] ALL = Direction.values();
  private static final int WAYS = ALL.length;

  private final Paper paper;
  private final int[] cost = new int[(Paper.WIDTH + 1) * (Paper.HEIGHT + 1) * WAYS];
  private final int[] before = new int[cost.length];
  private List<Cell> targets = List.of();

  Router(Paper paper) {
    this.paper = paper;
  }

  /**
   * Lays all wires, then each anew among the others.
   *
   * @return nets that are not joined
   */
  Set<String> lay(List<Wire> wires) {
    Set<String> failed = new TreeSet<>();
    List<Wire> ordered = wires.stream().sorted(Comparator.comparingInt(Router::extent)).toList();
    for (int round = 0; round < ROUNDS; round++) {
      failed.clear();
      for (Wire wire : ordered) {
        wire.lift(paper);
        if (!lay(wire)) {
          failed.add(wire.net());
        }
      }
    }
    return failed;
  }

  private static int extent(Wire wire) {
    int most = 0;
    for (Cell a : wire.ends().keySet()) {
      for (Cell b : wire.ends().keySet()) {
        most = Math.max(most, a.distance(b));
      }
    }
    return most;
  }

  private boolean lay(Wire wire) {
    Set<Cell> open = new HashSet<>(wire.ends().keySet());
    Cell first = wire.ends().keySet().iterator().next();
    open.remove(first);
    while (!open.isEmpty()) {
      int end = search(wire, first, open);
      if (end < 0) {
        return false;
      }
      open.remove(cell(end));
      for (int at = end; before[at] >= 0; at = before[at]) {
        wire.lay(cell(at), way(at).opposite(), paper);
      }
    }
    return true;
  }

  private int search(Wire wire, Cell first, Set<Cell> open) {
    targets = List.copyOf(open);
    Arrays.fill(cost, Integer.MAX_VALUE);
    PriorityQueue<Long> queue = new PriorityQueue<>();
    Set<Cell> tree = wire.stretches().isEmpty() ? Set.of(first) : wire.cells();
    for (Cell cell : tree) {
      for (Direction way : ALL) {
        Direction out = wire.ends().get(cell);
        int start = wire.stretches().isEmpty() ? 0 : BRANCH;
        reach(state(cell, way), start + (out == null || out == way ? 0 : CORNER), -1, queue);
      }
    }
    while (!queue.isEmpty()) {
      long head = queue.remove();
      int at = (int) (head & 0xffffffL);
      if (head >> 24 > cost[at] + STEP * distance(cell(at))) {
        continue;
      }
      if (open.contains(cell(at))) {
        return at;
      }
      leave(wire, at, tree, queue);
    }
    return -1;
  }

  private void leave(Wire wire, int at, Set<Cell> tree, PriorityQueue<Long> queue) {
    Cell from = cell(at);
    boolean crossing = paper.crossed(from, wire.number());
    for (Direction way : ALL) {
      boolean start = before[at] < 0;
      boolean straight = way == way(at);
      if (way == way(at).opposite() || (start && crossing) || ((start || crossing) && !straight)) {
        continue;
      }
      Cell to = from.step(way, 1);
      if (!paper.inside(to) || !paper.open(to, wire.number()) || tree.contains(to)) {
        continue;
      }
      int there = paper.wire(from, way);
      boolean over = paper.crossed(to, wire.number());
      if (there != Paper.FREE || (over && !paper.crossable(to, way, wire.number()))) {
        continue;
      }
      int price = STEP + (straight ? 0 : CORNER) + (over ? CROSSING : 0) + close(wire, to, way);
      Direction out = wire.ends().get(to);
      if (out != null && out.opposite() != way) {
        price += CORNER;
      }
      reach(state(to, way), cost[at] + price, at, queue);
    }
  }

  /** Keeps off what runs alongside. */
  private int close(Wire wire, Cell at, Direction way) {
    int price = 0;
    for (int side = 1; side <= 3; side += 2) {
      Cell beside = at.step(way.turned(side), 1);
      if (!paper.inside(beside)) {
        continue;
      }
      int along = paper.wire(beside, way);
      boolean wired = along != Paper.FREE && along != wire.number();
      price += wired ? CLOSE : paper.open(beside, wire.number()) ? 0 : CLOSE / 3;
    }
    return price;
  }

  private void reach(int state, int price, int from, PriorityQueue<Long> queue) {
    if (price < cost[state]) {
      cost[state] = price;
      before[state] = from;
      queue.add(((long) (price + STEP * distance(cell(state))) << 24) | state);
    }
  }

  /** To the nearest target: never more than what is still to be paid for steps. */
  private int distance(Cell cell) {
    int least = Integer.MAX_VALUE;
    for (Cell target : targets) {
      least = Math.min(least, cell.distance(target));
    }
    return least;
  }

  private static int state(Cell cell, Direction way) {
    return (cell.y() * (Paper.WIDTH + 1) + cell.x()) * WAYS + way.quarter;
  }

  private static Cell cell(int state) {
    int place = state / WAYS;
    return new Cell(place % (Paper.WIDTH + 1), place / (Paper.WIDTH + 1));
  }

  private static Direction way(int state) {
    return ALL[state % WAYS];
  }
}
