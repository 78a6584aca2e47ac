package bellwire.app.desk;

import bellwire.app.desk.Notices.Kind;
import bellwire.app.drawing.Palette;
import java.awt.BasicStroke;
import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.util.function.Supplier;
import javax.swing.Icon;

/** A notice's shape: ring for a note, triangle for trouble, diamond for a question. */
record Mark(Kind kind, Supplier<Palette> palette, int size) implements Icon {
  @Override
  public int getIconWidth() {
    return size;
  }

  @Override
  public int getIconHeight() {
    return size;
  }

  @Override
  public void paintIcon(Component c, Graphics g, int x, int y) {
    Graphics2D g2 = (Graphics2D) g.create(x, y, size, size);
    try {
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g2.scale(size / 24.0, size / 24.0);
      g2.setStroke(new BasicStroke(2.5f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
      switch (kind) {
        case NOTE -> {
          g2.setColor(palette.get().accent());
          g2.draw(new Ellipse2D.Double(3, 3, 18, 18));
          g2.draw(new Line2D.Double(12, 11, 12, 16));
          g2.draw(new Line2D.Double(12, 7.5, 12, 7.6));
        }
        case TROUBLE -> {
          g2.setColor(palette.get().faulty());
          g2.draw(closed(12, 3, 22, 21, 2, 21));
          g2.draw(new Line2D.Double(12, 10, 12, 14));
          g2.draw(new Line2D.Double(12, 17.5, 12, 17.6));
        }
        case QUESTION -> {
          g2.setColor(palette.get().undecided());
          g2.draw(closed(12, 2, 22, 12, 12, 22, 2, 12));
          g2.draw(new Line2D.Double(12, 12.5, 12, 13.5));
          g2.draw(new Line2D.Double(12, 17, 12, 17.1));
          g2.draw(new Line2D.Double(9.5, 9, 12, 7.5));
          g2.draw(new Line2D.Double(12, 7.5, 14, 10));
          g2.draw(new Line2D.Double(14, 10, 12, 12.5));
        }
      }
    } finally {
      g2.dispose();
    }
  }

  private static Path2D closed(double... points) {
    Path2D path = new Path2D.Double();
    path.moveTo(points[0], points[1]);
    for (int i = 2; i < points.length; i += 2) {
      path.lineTo(points[i], points[i + 1]);
    }
    path.closePath();
    return path;
  }
}
