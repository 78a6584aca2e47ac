package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.drawing.Palette;
import bellwire.app.job.Tick;
import java.awt.BasicStroke;
import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import javax.swing.Icon;

/** How an item stands, as a shape; a word stands beside it always. */
final class TickMark implements Icon {
  private static final int SIZE = 22;

  private final DeskContext ctx;
  private final Tick.State state;

  TickMark(DeskContext ctx, Tick.State state) {
    this.ctx = ctx;
    this.state = state;
  }

  static String word(Tick.State state) {
    return switch (state) {
      case OPEN -> "open";
      case DONE -> "done";
      case NOT_DONE -> "not done";
      case NOT_NEEDED -> "not needed";
    };
  }

  static String word(Tick.Basis basis) {
    return switch (basis) {
      case MEASURED -> "measured";
      case WITNESSED -> "witnessed";
      case ASSUMED -> "assumed";
    };
  }

  @Override
  public int getIconWidth() {
    return (int) (SIZE * ctx.scale());
  }

  @Override
  public int getIconHeight() {
    return (int) (SIZE * ctx.scale());
  }

  @Override
  public void paintIcon(Component on, Graphics g, int x, int y) {
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g2.translate(x, y);
      g2.scale(ctx.scale(), ctx.scale());
      g2.setStroke(new BasicStroke(3, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
      paint(g2, ctx.palette());
    } finally {
      g2.dispose();
    }
  }

  private void paint(Graphics2D g, Palette palette) {
    switch (state) {
      case OPEN -> {
        g.setColor(palette.faint());
        g.draw(new Ellipse2D.Double(4, 4, 14, 14));
      }
      case DONE -> {
        g.setColor(palette.sound());
        line(g, 3, 12, 9, 18, 19, 4);
      }
      case NOT_DONE -> {
        g.setColor(palette.faulty());
        line(g, 4, 4, 18, 18);
        line(g, 18, 4, 4, 18);
      }
      case NOT_NEEDED -> {
        g.setColor(palette.faint());
        line(g, 4, 11, 18, 11);
      }
    }
  }

  private static void line(Graphics2D g, double... xy) {
    Path2D path = new Path2D.Double();
    path.moveTo(xy[0], xy[1]);
    for (int i = 2; i < xy.length; i += 2) {
      path.lineTo(xy[i], xy[i + 1]);
    }
    g.draw(path);
  }
}
