package bellwire.hardware.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * What a person needs to read a sheet. Sizes: A4 landscape, ISO 216; the least height of letters
 * and the least width of lines are the project's own.
 */
class SheetsOnPaperTest {
  private static final double LEAST_CAPITALS_MM = 2.0;
  private static final double LEAST_LINE_MM = 0.2;
  private static final double TOUCH_MM = 0.05;
  private static final List<String> CAUTIONS =
      List.of(
          "Low voltage only: class 2 circuits, up to 30 V.",
          "No part of this board is made for mains.",
          "it is no safety barrier against a mains fault.",
          "Equipment off at its disconnect",
          "proved dead, live-dead-live",
          "find it, then fit the same type and rating only.",
          "Follow the local codes; licensed work is for those who hold a licence.",
          "Nobody has built this board.");
  private static final DrawnBoard BOARD = DrawnBoard.revisionA();

  @Test
  void nothingLiesOverAnything() {
    BOARD.sheets().forEach((name, sheet) -> assertThat(covered(sheet)).as(name).isEmpty());
  }

  /** Texts that lie on a text or on a line. */
  private static List<String> covered(DrawnSheet sheet) {
    List<String> covered = new ArrayList<>();
    List<DrawnSheet.Text> texts = sheet.texts();
    for (int i = 0; i < texts.size(); i++) {
      Rectangle2D box = shrunk(texts.get(i).box());
      for (int j = 0; j < i; j++) {
        if (box.intersects(shrunk(texts.get(j).box()))) {
          covered.add(texts.get(i) + " on " + texts.get(j));
        }
      }
      for (DrawnSheet.Stroke stroke : sheet.strokes()) {
        if (box.intersectsLine(stroke.x1(), stroke.y1(), stroke.x2(), stroke.y2())) {
          covered.add(texts.get(i) + " on " + stroke);
        }
      }
    }
    return covered;
  }

  @Test
  void noWireAndNoOtherSymbolIsInASymbol() {
    BOARD.sheets().forEach((name, sheet) -> assertThat(entered(sheet)).as(name).isEmpty());
  }

  private static List<String> entered(DrawnSheet sheet) {
    List<String> entered = new ArrayList<>();
    Map<String, Rectangle2D> bodies = bodies(sheet);
    bodies.forEach(
        (part, body) -> {
          Rectangle2D inner = shrunk(body);
          bodies.forEach(
              (other, box) -> {
                if (!part.equals(other) && inner.intersects(box)) {
                  entered.add(part + " and " + other);
                }
              });
          for (DrawnSheet.Stroke stroke : sheet.strokes()) {
            if (!stroke.owner().equals(part)
                && !stroke.kind().equals("frame")
                && inner.intersectsLine(stroke.x1(), stroke.y1(), stroke.x2(), stroke.y2())) {
              entered.add(part + " and " + stroke);
            }
          }
        });
    return entered;
  }

  /** The box of each symbol, its connections left off. */
  private static Map<String, Rectangle2D> bodies(DrawnSheet sheet) {
    Map<String, Rectangle2D> bodies = new TreeMap<>();
    for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
      if (stroke.pin().isEmpty() && !stroke.owner().isEmpty()) {
        Rectangle2D box = new Rectangle2D.Double(stroke.x1(), stroke.y1(), 0, 0);
        box.add(stroke.x2(), stroke.y2());
        bodies.merge(stroke.owner(), box, Rectangle2D::createUnion);
      }
    }
    return bodies;
  }

  @Test
  void allIsInTheFrameAndLegible() {
    BOARD
        .sheets()
        .forEach(
            (name, sheet) -> {
              Rectangle2D frame = new Rectangle2D.Double(0, 0, 0, 0);
              for (DrawnSheet.Stroke stroke : sheet.strokes("frame")) {
                frame =
                    frame.isEmpty()
                        ? new Rectangle2D.Double(stroke.x1(), stroke.y1(), 1, 1)
                        : frame;
                frame.add(stroke.x1(), stroke.y1());
                frame.add(stroke.x2(), stroke.y2());
              }
              assertThat(new Rectangle2D.Double(5, 5, 287, 200).contains(frame)).as(name).isTrue();
              for (DrawnSheet.Text text : sheet.texts()) {
                assertThat(frame.contains(text.box())).as(name + " " + text).isTrue();
                assertThat(text.capitals())
                    .as(name + " " + text)
                    .isGreaterThanOrEqualTo(LEAST_CAPITALS_MM);
              }
              for (DrawnSheet.Stroke stroke : sheet.strokes()) {
                assertThat(
                        frame.outcode(stroke.x1(), stroke.y1())
                            | frame.outcode(stroke.x2(), stroke.y2()))
                    .as(name + " " + stroke)
                    .isZero();
                assertThat(stroke.width())
                    .as(name + " " + stroke)
                    .isGreaterThanOrEqualTo(LEAST_LINE_MM);
              }
              assertThat(BOARD.svg().get(name))
                  .contains("width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\"");
            });
  }

  @Test
  void everySheetHasTheCautionsAndItsTitle() {
    int number = 0;
    for (Map.Entry<String, DrawnSheet> sheet : BOARD.sheets().entrySet()) {
      number++;
      StringBuilder all = new StringBuilder();
      sheet.getValue().texts().forEach(text -> all.append(text.words()).append(' '));
      assertThat(all.toString()).as(sheet.getKey()).contains(CAUTIONS);
      assertThat(all.toString())
          .contains("Bellwire sensing board, revision A")
          .contains(
              "Sheet %s, %d of %d"
                  .formatted(
                      sheet.getKey().replaceAll("sheet-(.*).svg", "$1"),
                      number,
                      BOARD.sheets().size()));
    }
  }

  private static Rectangle2D shrunk(Rectangle2D box) {
    return new Rectangle2D.Double(
        box.getX() + TOUCH_MM,
        box.getY() + TOUCH_MM,
        box.getWidth() - 2 * TOUCH_MM,
        box.getHeight() - 2 * TOUCH_MM);
  }

  /** Else the tests above could not fail. */
  @Test
  void aLineOverATextOrThroughASymbolIsFound() {
    String svg = BOARD.svg().get("sheet-2.svg");
    int wires = svg.indexOf("<g class=\"wires\"");
    int first = svg.indexOf("<line", wires);
    String across = "<line x1=\"12\" y1=\"%s\" x2=\"280\" y2=\"%s\"/>\n";
    DrawnSheet sheet = BOARD.sheets().get("sheet-2.svg");
    double text = sheet.texts().get(0).box().getCenterY();
    String over = svg.substring(0, first) + across.formatted(text, text) + svg.substring(first);
    assertThat(covered(new DrawnSheet(over))).isNotEmpty();
    double body = bodies(sheet).values().iterator().next().getCenterY();
    String through = svg.substring(0, first) + across.formatted(body, body) + svg.substring(first);
    assertThat(entered(new DrawnSheet(through))).isNotEmpty();
  }
}
