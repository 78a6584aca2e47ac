package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet.Standing;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The shapes that say by form what a colour says too. */
final class Symbols {
  private Symbols() {}

  static Tone tone(Standing standing) {
    return switch (standing) {
      case SOUND -> Palette::sound;
      case FAULTY -> Palette::faulty;
      case UNDECIDED -> Palette::undecided;
    };
  }

  /** A tick for sound, a cross for faulty, a hollow diamond with a dot for undecided. */
  static void standing(Plate plate, Standing standing, double x, double y, double size) {
    standing(plate, standing, x, y, size, tone(standing));
  }

  static void standing(Plate plate, Standing standing, double x, double y, double size, Tone tone) {
    double r = size / 2;
    switch (standing) {
      case SOUND -> plate.stroke(path(x - r, y, x - r / 3, y + 0.8 * r, x + r, y - r), tone, 2);
      case FAULTY -> {
        plate.line(x - r, y - r, x + r, y + r, tone, 2.2);
        plate.line(x - r, y + r, x + r, y - r, tone, 2.2);
      }
      case UNDECIDED -> {
        plate.stroke(diamond(x, y, 1.15 * r), tone, 1.6);
        plate.fill(new Ellipse2D.Double(x - 1.3, y - 1.3, 2.6, 2.6), tone);
      }
    }
  }

  static Path2D diamond(double x, double y, double r) {
    Path2D d = path(x - r, y, x, y - r, x + r, y, x, y + r);
    d.closePath();
    return d;
  }

  static Rectangle2D square(double x, double y, double r) {
    return new Rectangle2D.Double(x - r, y - r, 2 * r, 2 * r);
  }

  /** Two strokes across a gap: no path here. */
  static void broken(Plate plate, double x, double y, Tone tone) {
    plate.line(x - 6, y + 6, x - 2, y - 6, tone, 2);
    plate.line(x + 2, y + 6, x + 6, y - 6, tone, 2);
  }

  /** From one place to another with ticks at both, and one in the middle where it is given. */
  static void bracket(Plate plate, double x1, double x2, double y, Tone tone, float... dash) {
    plate.line(x1, y, x2, y, tone, 1.2, dash);
    plate.line(x1, y - 3.5, x1, y + 3.5, tone, 1.2);
    plate.line(x2, y - 3.5, x2, y + 3.5, tone, 1.2);
  }

  static Path2D path(double... xy) {
    Path2D path = new Path2D.Double();
    path.moveTo(xy[0], xy[1]);
    for (int i = 2; i < xy.length; i += 2) {
      path.lineTo(xy[i], xy[i + 1]);
    }
    return path;
  }
}
