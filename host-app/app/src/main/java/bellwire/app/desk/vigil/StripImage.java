package bellwire.app.desk.vigil;

import bellwire.app.vigil.VigilPicture;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;

/**
 * A part of a vigil, drawn.
 *
 * @param plot where in it the lanes are, in the component's coordinates
 * @param scale the image's pixels for one of the component's
 */
record StripImage(BufferedImage image, VigilPicture picture, Rectangle2D plot, double scale) {

  /** Of a time, in the component's coordinates. */
  double x(long micros) {
    long from = picture.fromMicros();
    return plot.getX() + plot.getWidth() * ((double) (micros - from) / (picture.toMicros() - from));
  }
}
