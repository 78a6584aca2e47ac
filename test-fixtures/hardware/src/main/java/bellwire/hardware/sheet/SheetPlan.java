package bellwire.hardware.sheet;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What {@code sheets-a.yaml} says of one sheet.
 *
 * @param name the netlist's sheet number, and a second one where that is drawn on several
 * @param reach pins of a net further apart than this are labelled, not wired
 * @param reaches the same of single nets; 0: labelled at each pin
 * @param captions what a group of parts is, by where its text begins
 * @param labels where a net's label stands, in place of one that the program finds
 */
record SheetPlan(
    String name,
    @Nullable String title,
    int reach,
    Map<String, Integer> reaches,
    Map<String, Label> labels,
    List<Caption> captions,
    List<String> notes,
    Map<String, Place> parts) {
  /** The netlist's sheet. */
  int number() {
    return Integer.parseInt(name.split("\\.", 2)[0]);
  }

  /**
   * Where a part, or a unit of one, stands.
   *
   * @param side where its texts go; null: where there is room
   */
  record Place(int x, int y, Orientation orientation, @Nullable Direction side) {
    /**
     * @param text x, y, then an orientation and a side where they are not the usual ones
     */
    static Place of(String text) {
      String[] words = text.trim().split("\\s+", -1);
      return new Place(
          Integer.parseInt(words[0]),
          Integer.parseInt(words[1]),
          words.length > 2 ? Orientation.of(words[2]) : Orientation.UPRIGHT,
          words.length > 3 ? toward(words[3]) : null);
    }
  }

  /** A text and where it begins. */
  record Caption(int x, int y, String text) {
    static Caption of(String text) {
      String[] words = text.trim().split("\\s+", 3);
      return new Caption(Integer.parseInt(words[0]), Integer.parseInt(words[1]), words[2]);
    }
  }

  /** A label at the end of a wire; {@code side} is where its text runs. */
  record Label(Cell end, Direction side) {
    static Label of(String text) {
      String[] words = text.trim().split("\\s+", -1);
      return new Label(
          new Cell(Integer.parseInt(words[0]), Integer.parseInt(words[1])), toward(words[2]));
    }
  }

  static Direction toward(String word) {
    return switch (word) {
      case "right" -> Direction.RIGHT;
      case "left" -> Direction.LEFT;
      case "above" -> Direction.UP;
      case "below" -> Direction.DOWN;
      default -> throw new IllegalArgumentException("sheets-a.yaml: side=" + word);
    };
  }
}
