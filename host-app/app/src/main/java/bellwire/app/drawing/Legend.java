package bellwire.app.drawing;

import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** What the signs mean, in words; entries flow over as many lines as they take. */
final class Legend {
  /** Room for a sample. */
  static final double SAMPLE = 30;

  private static final double LINE = 17;
  private static final double GAP = 14;

  /** Draws a sample from x to x + {@link #SAMPLE}, about the height y. */
  interface Sample {
    void draw(Plate plate, double x, double y);
  }

  private record Entry(Sample sample, String words) {}

  private final List<Entry> entries = new ArrayList<>();

  Legend add(String words, Sample sample) {
    entries.add(new Entry(sample, words));
    return this;
  }

  /** Lays it out below y; returns where it ends. */
  double lay(Plate plate, double top) {
    Font font = Lettering.regular(Drawing.TYPE);
    double x = 0;
    double y = top + LINE / 2;
    for (Entry entry : entries) {
      List<String> lines = Lettering.wrap(entry.words(), font, plate.width() - SAMPLE - 6);
      double wide = SAMPLE + 6;
      for (String line : lines) {
        wide = Math.max(wide, SAMPLE + 6 + Lettering.width(line, font));
      }
      if (x > 0 && x + wide > plate.width()) {
        x = 0;
        y += LINE;
      }
      entry.sample().draw(plate, x, y);
      for (int i = 0; i < lines.size(); i++) {
        plate.text(lines.get(i), font, x + SAMPLE + 6, y + 3.6, Plate.Align.LEFT, Palette::faint);
        y += i < lines.size() - 1 ? LINE : 0;
      }
      x += wide + GAP;
    }
    return entries.isEmpty() ? top : y + LINE / 2;
  }

  /** A filled box of a size, for legends of areas. */
  static Rectangle2D box(double x, double y) {
    return new Rectangle2D.Double(x + 4, y - 6, SAMPLE - 8, 12);
  }
}
