package bellwire.app.desk.vigil;

import bellwire.app.vigil.VigilPicture;
import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;

/**
 * Puts the latest drawing of a vigil on the screen, stretched to where it belongs while the view
 * has moved on: all that the event thread does of a chart.
 */
final class StripPaint {
  private final Graphics2D g;
  private final StripColours colours;
  private final StripView view;
  private final int width;
  private final int height;

  /**
   * @param view what is looked at now
   * @param width of the component, in its own coordinates
   */
  StripPaint(Graphics2D g, StripColours colours, StripView view, int width, int height) {
    this.g = g;
    this.colours = colours;
    this.view = view;
    this.width = width;
    this.height = height;
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
  }

  void paper() {
    g.setPaint(colours.paper());
    g.fillRect(0, 0, width, height);
  }

  /** How far the samples are read, 0 to 1. */
  void reading(double share, Font font) {
    g.setPaint(colours.ink());
    g.setFont(font);
    String said = "reading the samples, " + Math.round(100 * share) + " %";
    g.drawString(said, 12, g.getFontMetrics().getAscent() + 4);
  }

  void focus() {
    g.setPaint(colours.ink());
    g.setStroke(new BasicStroke(2));
    g.drawRect(1, 1, width - 2, height - 2);
  }

  void image(StripImage of) {
    VigilPicture picture = of.picture();
    boolean there =
        view.fromMicros() == picture.fromMicros() && view.toMicros() == picture.toMicros();
    int left = (int) Math.ceil(of.plot().getX());
    int right = (int) of.plot().getMaxX();
    if (there) {
      part(of, 0, width, 0, width);
      return;
    }
    part(of, 0, left, 0, left);
    part(of, right, width, right, width);
    long from = Math.max(view.fromMicros(), picture.fromMicros());
    long to = Math.min(view.toMicros(), picture.toMicros());
    if (to > from) {
      part(of, x(of, from), x(of, to), of.x(from), of.x(to));
    }
  }

  /** A stretch of the image's whole height, by plain scaling, which is quick. */
  private void part(StripImage of, double from, double to, double imageFrom, double imageTo) {
    double scale = of.scale();
    int imageHeight = of.image().getHeight();
    g.drawImage(
        of.image(),
        (int) Math.round(from),
        0,
        (int) Math.round(to),
        (int) Math.round(imageHeight / scale),
        (int) Math.round(imageFrom * scale),
        0,
        (int) Math.round(imageTo * scale),
        imageHeight,
        null);
  }

  private double x(StripImage of, long micros) {
    return of.plot().getX()
        + of.plot().getWidth() * (micros - view.fromMicros()) / Math.max(1, view.lengthMicros());
  }

  void cursor(StripImage of, long micros) {
    double x = x(of, micros);
    if (x >= of.plot().getX() && x <= of.plot().getMaxX()) {
      g.setPaint(colours.ink());
      g.setStroke(new BasicStroke(1.5f));
      g.draw(new Line2D.Double(x, of.plot().getY(), x, of.plot().getMaxY()));
    }
  }
}
