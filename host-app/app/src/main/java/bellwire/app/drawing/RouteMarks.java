package bellwire.app.drawing;

import bellwire.app.drawing.RouteFaults.Kind;
import bellwire.app.drawing.RouteFaults.RouteFault;
import java.awt.geom.Rectangle2D;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The signs of faults on the conductors' lines. */
final class RouteMarks {
  private static final double GAP = 9;
  private static final float[] LEAK = {4, 3};

  private final Plate plate;
  private final Map<String, Double> rows;
  private final double left;
  private final double right;
  private final @Nullable String selectedKey;

  /**
   * @param rows height of each port's line
   */
  RouteMarks(
      Plate plate,
      Map<String, Double> rows,
      double left,
      double right,
      @Nullable String selectedKey) {
    this.plate = plate;
    this.rows = rows;
    this.left = left;
    this.right = right;
    this.selectedKey = selectedKey;
  }

  /** Draws it at its place; nothing where that is not known. */
  void draw(RouteFault f) {
    if (f.at() == null) {
      return;
    }
    Tone tone = Symbols.tone(f.standing());
    double x = left + Math.max(0, Math.min(1, f.at().fraction().value())) * (right - left);
    double[] ys =
        f.ports().stream().filter(rows::containsKey).mapToDouble(rows::get).sorted().toArray();
    if (ys.length == 0) {
      return;
    }
    switch (f.kind()) {
      case BREAK -> {
        for (double y : ys) {
          boolean selected = ("conductor:" + f.ports().get(0)).equals(selectedKey);
          plate.fill(
              new Rectangle2D.Double(x - GAP, y - 4, 2 * GAP, 8),
              selected ? Palette::selected : Palette::paper);
          Symbols.broken(plate, x, y, tone);
        }
      }
      case JOINT, ATTACHED -> {
        for (double y : ys) {
          plate.fill(Symbols.diamond(x, y, 6.5), Palette::paper);
          plate.stroke(Symbols.diamond(x, y, 6.5), tone, 2);
        }
      }
      case TOUCH -> {
        plate.line(x, ys[0], x, ys[ys.length - 1], tone, 2.4);
        for (double y : ys) {
          plate.fill(Symbols.square(x, y, 4.5), tone);
        }
      }
      case LEAK -> {
        plate.line(x, ys[0], x, ys[ys.length - 1], tone, 2, LEAK);
        for (double y : ys) {
          plate.fill(Symbols.square(x, y, 4), Palette::paper);
          plate.stroke(Symbols.square(x, y, 4), tone, 1.8);
        }
      }
    }
  }

  /** The sign by itself, for a legend. */
  static void sample(Plate plate, Kind kind, double x, double y, Tone tone) {
    double middle = x + Legend.SAMPLE / 2;
    switch (kind) {
      case BREAK -> Symbols.broken(plate, middle, y, tone);
      case JOINT -> plate.stroke(Symbols.diamond(middle, y, 6), tone, 2);
      case ATTACHED -> {
        plate.stroke(Symbols.diamond(middle, y, 6), tone, 1.4);
        plate.line(middle - 12, y, middle - 6, y, tone, 1.4);
        plate.line(middle + 6, y, middle + 12, y, tone, 1.4);
      }
      case TOUCH -> {
        plate.line(middle - 9, y, middle + 9, y, tone, 2.4);
        plate.fill(Symbols.square(middle - 9, y, 4), tone);
        plate.fill(Symbols.square(middle + 9, y, 4), tone);
      }
      case LEAK -> {
        plate.line(middle - 6, y, middle + 6, y, tone, 2, LEAK);
        plate.stroke(Symbols.square(middle - 9, y, 3.5), tone, 1.8);
        plate.stroke(Symbols.square(middle + 9, y, 3.5), tone, 1.8);
      }
    }
  }
}
