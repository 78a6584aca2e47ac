package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.page.Placed;
import bellwire.app.document.page.Sheet;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Nothing lies on anything else, and nothing outside of the page. */
final class PagesCheck {
  private PagesCheck() {}

  /**
   * @param edge that nothing may reach
   */
  static void check(List<Sheet> sheets, double edge) {
    for (int page = 0; page < sheets.size(); page++) {
      Sheet sheet = sheets.get(page);
      Rectangle2D paper =
          new Rectangle2D.Double(edge, edge, sheet.width() - 2 * edge, sheet.height() - 2 * edge);
      List<Rectangle2D> boxes = new ArrayList<>();
      List<String> words = new ArrayList<>();
      for (Placed placed : sheet.placed()) {
        if (placed instanceof Placed.Bookmark || placed.box().isEmpty()) {
          continue;
        }
        String what =
            "page "
                + (page + 1)
                + ": "
                + (placed instanceof Placed.Text t ? t.line().text() : placed.getClass());
        assertThat(paper.contains(placed.box())).as(what + " " + placed.box()).isTrue();
        if (!(placed instanceof Placed.Fill)) {
          boxes.add(placed.box());
          words.add(what);
        }
      }
      for (int i = 0; i < boxes.size(); i++) {
        for (int j = 0; j < i; j++) {
          Rectangle2D both = boxes.get(i).createIntersection(boxes.get(j));
          boolean apart = both.getWidth() <= 0.01 || both.getHeight() <= 0.01;
          assertThat(apart).as(words.get(i) + " on " + words.get(j)).isTrue();
        }
      }
    }
  }
}
