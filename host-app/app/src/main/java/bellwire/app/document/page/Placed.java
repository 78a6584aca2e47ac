package bellwire.app.document.page;

import bellwire.app.document.block.Picture;
import bellwire.app.document.type.TextLine;
import bellwire.app.drawing.Drawing;
import java.awt.Color;
import java.awt.geom.Rectangle2D;

/** Something that has its place on a page. */
public sealed interface Placed {
  Placed moved(double dx, double dy);

  /** What it covers. */
  Rectangle2D box();

  record Text(TextLine line, double x, double baseline) implements Placed {
    @Override
    public Text moved(double dx, double dy) {
      return new Text(line, x + dx, baseline + dy);
    }

    @Override
    public Rectangle2D box() {
      return new Rectangle2D.Double(x, baseline - line.ascent(), line.width(), line.height());
    }
  }

  /** A rectangle filled with a colour: a ground, or a line. */
  record Fill(double x, double y, double width, double height, Color color) implements Placed {
    @Override
    public Fill moved(double dx, double dy) {
      return new Fill(x + dx, y + dy, width, height, color);
    }

    @Override
    public Rectangle2D box() {
      return new Rectangle2D.Double(x, y, width, height);
    }
  }

  /**
   * @param width it is drawn for, before it is scaled
   * @param scale of what is drawn
   */
  record Drawn(Drawing drawing, double x, double y, double width, double height, double scale)
      implements Placed {
    @Override
    public Drawn moved(double dx, double dy) {
      return new Drawn(drawing, x + dx, y + dy, width, height, scale);
    }

    @Override
    public Rectangle2D box() {
      return new Rectangle2D.Double(x, y, width * scale, height * scale);
    }
  }

  record Photo(Picture picture, double x, double y, double width, double height) implements Placed {
    @Override
    public Photo moved(double dx, double dy) {
      return new Photo(picture, x + dx, y + dy, width, height);
    }

    @Override
    public Rectangle2D box() {
      return new Rectangle2D.Double(x, y, width, height);
    }
  }

  /** Where a bookmark leads; covers nothing. */
  record Bookmark(int level, String title, double y) implements Placed {
    @Override
    public Bookmark moved(double dx, double dy) {
      return new Bookmark(level, title, y + dy);
    }

    @Override
    public Rectangle2D box() {
      return new Rectangle2D.Double(0, y, 0, 0);
    }
  }
}
