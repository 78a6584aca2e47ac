package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Puts designator, value and kind beside a symbol, where nothing else is. */
final class PartTexts {
  private static final double GAP = 0.65;
  private static final double SPACE = 0.4;

  /** A line of text; see {@link Lettering#box}. */
  record Line(String text, double x, double y, int anchor) {
    Box box() {
      return Lettering.box(text, x, y, anchor, Lettering.SIZE);
    }

    /** With a space at either end, so that two texts in a row are not read as one. */
    Box room() {
      Box box = box();
      return new Box(box.x() - SPACE, box.y(), box.width() + 2 * SPACE, box.height());
    }
  }

  private final Paper paper;

  PartTexts(Paper paper) {
    this.paper = paper;
  }

  /**
   * Chooses the first of the usual places that is empty, and takes it.
   *
   * @param lines the designator first
   * @param side null: where there is room
   * @return empty where there is none
   */
  List<Line> place(Symbol symbol, List<String> lines, @Nullable Direction side) {
    List<List<Line>> choices = choices(symbol, lines, side);
    List<Line> chosen =
        choices.stream()
            .filter(choice -> choice.stream().allMatch(line -> paper.empty(line.room())))
            .findFirst()
            .orElse(List.of());
    chosen.forEach(line -> paper.text(line.box()));
    return chosen;
  }

  private static List<List<Line>> choices(
      Symbol symbol, List<String> lines, @Nullable Direction side) {
    Box body = symbol.body();
    double x = body.x() + body.width() / 2;
    if (side != null) {
      return List.of(at(body, lines, side));
    }
    return switch (symbol.texts()) {
      case AMPLIFIER -> List.of(amplifier(body, lines));
      case ABOVE ->
          List.of(
              stack(lines, body.x(), body.y() - GAP - Lettering.LINE * (lines.size() - 0.5), -1),
              stack(lines, x + 2.6, body.y() - GAP - Lettering.LINE * (lines.size() - 0.5), -1),
              stack(lines, x - 2.6, body.y() - GAP - Lettering.LINE * (lines.size() - 0.5), 1),
              stack(lines, body.x(), body.bottom() + GAP + Lettering.LINE / 2, -1),
              stack(lines, x + 2.6, body.bottom() + GAP + Lettering.LINE / 2, -1));
      case BESIDE ->
          List.of(
              at(body, lines, Direction.RIGHT),
              at(body, lines, Direction.LEFT),
              at(body, lines, Direction.UP),
              at(body, lines, Direction.DOWN));
      case IN_LINE ->
          symbol.pins().get(0).out().horizontal()
              ? List.of(
                  around(x, body, lines),
                  at(body, lines, Direction.UP),
                  at(body, lines, Direction.DOWN))
              : List.of(
                  at(body, lines, Direction.RIGHT),
                  at(body, lines, Direction.LEFT),
                  at(body, merged(lines), Direction.RIGHT),
                  at(body, merged(lines), Direction.LEFT));
    };
  }

  /** Two lines: the designator, and all else. */
  private static List<String> merged(List<String> lines) {
    return List.of(lines.get(0), String.join(" ", lines.subList(1, lines.size())));
  }

  private static List<Line> at(Box body, List<String> lines, Direction side) {
    double x = body.x() + body.width() / 2;
    double first = body.y() + body.height() / 2 - Lettering.LINE * (lines.size() - 1) / 2;
    return switch (side) {
      case RIGHT -> stack(lines, body.right() + GAP, first, -1);
      case LEFT -> stack(lines, body.x() - GAP, first, 1);
      case UP -> stack(lines, x, body.y() - GAP - Lettering.LINE * (lines.size() - 0.5), 0);
      case DOWN -> stack(lines, x, body.bottom() + GAP + Lettering.LINE / 2, 0);
    };
  }

  /** The designator above, all else below. */
  private static List<Line> around(double x, Box body, List<String> lines) {
    List<Line> all = new ArrayList<>();
    all.addAll(stack(lines.subList(0, 1), x, body.y() - GAP - Lettering.LINE / 2, 0));
    all.addAll(
        stack(lines.subList(1, lines.size()), x, body.bottom() + GAP + Lettering.LINE / 2, 0));
    return all;
  }

  private static List<Line> amplifier(Box body, List<String> lines) {
    List<Line> all = new ArrayList<>();
    double x = body.x() + 4.4;
    all.addAll(stack(lines.subList(0, 1), x, body.y() + 0.4, -1));
    all.addAll(stack(lines.subList(1, lines.size()), x, body.bottom() - 0.4, -1));
    return all;
  }

  private static List<Line> stack(List<String> lines, double x, double first, int anchor) {
    List<Line> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      all.add(new Line(lines.get(i), x, first + i * Lettering.LINE, anchor));
    }
    return all;
  }
}
