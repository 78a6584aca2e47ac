package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Puts a net's name at a pin or at a wire, where nothing else is. */
final class NetLabels {
  private static final double GAP = 0.5;
  private static final int LONGEST = 12;

  /**
   * @param end where the wire ends that it names
   * @param text its middle line; see {@link Lettering#box}
   */
  record Label(String net, Cell end, PartTexts.Line text) {}

  private record Choice(Cell start, Direction way, int length, Label label, int price) {}

  private final Paper paper;

  NetLabels(Paper paper) {
    this.paper = paper;
  }

  /** At the end of a pin or of a wire that runs there, the text further the same way. */
  static Label at(String net, String text, Cell end, Direction side) {
    double y = end.y();
    return new Label(
        net,
        end,
        switch (side) {
          case RIGHT -> new PartTexts.Line(text, end.x() + GAP, y, -1);
          case LEFT -> new PartTexts.Line(text, end.x() - GAP, y, 1);
          case UP -> new PartTexts.Line(text, end.x(), y - GAP - Lettering.LINE / 2, 0);
          case DOWN -> new PartTexts.Line(text, end.x(), y + GAP + Lettering.LINE / 2, 0);
        });
  }

  /**
   * At a wire, by a stub of its own where needed, which is laid.
   *
   * @return null where there is no room
   */
  @Nullable Label beside(Wire wire, String text) {
    List<Choice> choices = new ArrayList<>();
    boolean bare = wire.stretches().isEmpty();
    for (Cell cell : wire.cells()) {
      for (Direction way : Direction.values()) {
        Direction out = wire.ends().get(cell);
        if (bare && out != way) {
          continue;
        }
        along(wire, cell, way, text, choices);
      }
    }
    Optional<Choice> best = choices.stream().min(Comparator.comparingInt(Choice::price));
    best.ifPresent(
        choice -> {
          for (int i = 0; i < choice.length(); i++) {
            wire.lay(choice.start().step(choice.way(), i), choice.way(), paper);
          }
          paper.text(choice.label().text().box());
        });
    return best.map(Choice::label).orElse(null);
  }

  private void along(Wire wire, Cell start, Direction way, String text, List<Choice> choices) {
    Set<Cell> own = wire.cells();
    if (paper.crossed(start, wire.number())) {
      return;
    }
    int degree = wire.degree(start);
    Cell end = start;
    for (int length = 0; length <= LONGEST; length++) {
      if (length > 0) {
        Cell next = end.step(way, 1);
        if (!paper.inside(next)
            || !paper.open(next, wire.number())
            || paper.crossed(next, wire.number())
            || own.contains(next)
            || wire.ends().containsKey(next)) {
          return;
        }
        end = next;
      }
      int price = length + (length > 0 && degree > 1 ? 3 : 0);
      if (way.horizontal()) {
        offer(wire, start, way, length, at(wire.net(), text, end, way), price, choices);
      } else {
        offer(wire, start, way, length, at(wire.net(), text, end, way), price + 2, choices);
      }
      if (!way.horizontal() && length > 1) {
        for (Direction side : List.of(Direction.RIGHT, Direction.LEFT)) {
          offer(wire, start, way, length, at(wire.net(), text, end, side), price + 4, choices);
        }
      }
    }
  }

  private void offer(
      Wire wire,
      Cell start,
      Direction way,
      int length,
      Label label,
      int price,
      List<Choice> choices) {
    if (length == 0 && wire.degree(start) > 1) {
      return;
    }
    if (paper.empty(label.text().room())) {
      choices.add(new Choice(start, way, length, label, price));
    }
  }
}
