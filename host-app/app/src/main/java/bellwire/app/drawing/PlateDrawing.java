package bellwire.app.drawing;

import java.awt.Graphics2D;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A drawing that is laid out whole for a width; the last layout is kept. */
abstract class PlateDrawing implements Drawing {
  private volatile @Nullable Plate last;

  /** Lays it out, height included. */
  abstract Plate lay(double width);

  final Plate plate(double width) {
    double wanted = Math.max(LEAST_WIDTH, width);
    Plate plate = last;
    if (plate == null || plate.width() != wanted) {
      plate = lay(wanted);
      last = plate;
    }
    return plate;
  }

  @Override
  public final double height(double width) {
    return plate(width).height();
  }

  @Override
  public final void paint(Graphics2D g, double width, Palette palette) {
    plate(width).paint(g, palette);
  }

  @Override
  public final List<Spot> spots(double width) {
    return plate(width).spots();
  }
}
