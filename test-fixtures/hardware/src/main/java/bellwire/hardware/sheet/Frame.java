package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.List;

/** Frame, cautions and title block, the same on every sheet. */
final class Frame {
  static final List<String> CAUTIONS =
      List.of(
          "Low voltage only: class 2 circuits, up to 30 V. No part of this board is made for"
              + " mains.",
          "The isolation protects the measurement and the Pi; it is no safety barrier against a"
              + " mains fault.",
          "Equipment off at its disconnect, cable proved dead, live-dead-live, before a conductor"
              + " is landed.",
          "A fuse that opened had a cause: find it, then fit the same type and rating only.",
          "Follow the local codes; licensed work is for those who hold a licence.");
  static final String UNBUILT = "Nobody has built this board.";

  private static final double TOP = Paper.HEIGHT + 1;
  private static final double BOTTOM = 149;
  private static final double NOTES_X = 86;
  private static final double TITLE_X = 158;
  private static final double LINE = 2.9;

  private Frame() {}

  /**
   * @param number of the sheet among all, from 1
   */
  static void draw(
      Drawing drawing, String name, String title, List<String> notes, int number, int all) {
    drawing.open("frame", "stroke", "black", "stroke-width", "0.5");
    drawing.box(new Box(0, 0, Paper.WIDTH, BOTTOM));
    drawing.line(0, TOP, Paper.WIDTH, TOP, "");
    drawing.line(NOTES_X, TOP, NOTES_X, BOTTOM, "");
    drawing.line(TITLE_X, TOP, TITLE_X, BOTTOM, "");
    drawing.close();
    drawing.open("cautions");
    drawing.text("CAUTION", 1.5, TOP + 2.3, -1, 2.8);
    lines(drawing, CAUTIONS, 1.5, TOP + 5.5, NOTES_X - 3);
    drawing.close();
    drawing.open("notes");
    lines(drawing, notes, NOTES_X + 1.5, TOP + 2, TITLE_X - NOTES_X - 3);
    drawing.close();
    drawing.open("title");
    drawing.text("Bellwire sensing board, revision A", TITLE_X + 1.5, TOP + 2.6, -1, 2.8);
    List<String> words = wrapped(title, Paper.WIDTH - TITLE_X - 3, 3.4);
    for (int i = 0; i < words.size(); i++) {
      drawing.text(words.get(i), TITLE_X + 1.5, TOP + 6.8 + 3.8 * i, -1, 3.4);
    }
    drawing.text(
        "Sheet " + name + ", " + number + " of " + all, TITLE_X + 1.5, BOTTOM - 6, -1, 2.8);
    drawing.text(UNBUILT, TITLE_X + 1.5, BOTTOM - 2.2, -1, 2.8);
    drawing.close();
  }

  private static void lines(
      Drawing drawing, List<String> paragraphs, double x, double top, double width) {
    double y = top;
    for (String paragraph : paragraphs) {
      for (String line : wrapped(paragraph, width, Lettering.SIZE)) {
        if (y > BOTTOM - 1) {
          throw new IllegalStateException("sheets-a.yaml: no room for the note " + paragraph);
        }
        drawing.text(line, x, y, -1, Lettering.SIZE);
        y += LINE;
      }
    }
  }

  static List<String> wrapped(String text, double width, double size) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String word : text.split(" ", -1)) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (!line.isEmpty() && Lettering.width(longer, size) > width) {
        lines.add(line);
        line = word;
      } else {
        line = longer;
      }
    }
    lines.add(line);
    return lines;
  }
}
