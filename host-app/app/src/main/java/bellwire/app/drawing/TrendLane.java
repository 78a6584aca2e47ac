package bellwire.app.drawing;

import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.Unwatched;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Locale;

/**
 * A conductor's resistance in a vigil's drawing: the mean of each column as a line, least and
 * greatest as a band, on a scale of its own.
 */
final class TrendLane {
  private final Plate plate;
  private final Rectangle2D lane;
  private final VigilSpan span;
  private final List<Unwatched> gaps;

  /**
   * @param gaps that no line crosses
   */
  TrendLane(Plate plate, Rectangle2D lane, VigilSpan span, List<Unwatched> gaps) {
    this.plate = plate;
    this.lane = lane;
    this.span = span;
    this.gaps = gaps;
  }

  /**
   * @param right where the words under the lane's name end
   * @return what it was, in words
   */
  String draw(TrendSeries series, double right) {
    int n = VigilSpan.columns(lane);
    double[] low = new double[n];
    double[] high = new double[n];
    double[] sum = new double[n];
    int[] count = new int[n];
    boolean[] open = new boolean[n];
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < series.ohms().length; i++) {
      int c = span.column(series.micros()[i], n);
      double ohms = series.ohms()[i];
      if (Double.isNaN(ohms)) {
        open[c] = true;
        continue;
      }
      low[c] = count[c] == 0 ? ohms : Math.min(low[c], ohms);
      high[c] = count[c] == 0 ? ohms : Math.max(high[c], ohms);
      sum[c] += ohms;
      count[c]++;
      least = Math.min(least, ohms);
      greatest = Math.max(greatest, ohms);
    }
    for (int c = 0; c < n; c++) {
      if (open[c]) {
        plate.fill(
            new Rectangle2D.Double(
                lane.getX() + c * VigilSpan.COLUMN, lane.getY() + 2, VigilSpan.LEAST, 6),
            Palette::faulty);
      }
    }
    if (least > greatest) {
      return "no reading with a value";
    }
    double ohmsSpan = Math.max(greatest - least, 12 * series.readingOhms());
    double bottom = (least + greatest) / 2 - ohmsSpan / 2;
    double tall = lane.getHeight() - 14;
    Scale scale = new Scale(bottom, ohmsSpan, lane.getMaxY() - 4, tall);
    band(scale, count, low, high);
    line(scale, count, sum);
    String words = words(least, greatest);
    plate.text(
        words,
        Lettering.regular(Drawing.TYPE),
        right,
        lane.getY() + 28,
        Plate.Align.RIGHT,
        Palette::faint);
    return words;
  }

  /** Ohms to height in a lane. */
  private record Scale(double low, double span, double bottom, double tall) {
    double y(double ohms) {
      return bottom - tall * (ohms - low) / span;
    }
  }

  private static String words(double least, double greatest) {
    double range = Math.max(greatest - least, 1e-6);
    int digits = (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(range))));
    String figure = "%." + Math.min(3, digits) + "f";
    return String.format(Locale.ROOT, figure + "–" + figure + " ohm", least, greatest);
  }

  private void band(Scale scale, int[] count, double[] low, double[] high) {
    Path2D band = new Path2D.Double();
    for (int c = 0; c < count.length; c++) {
      if (count[c] > 0 && high[c] > low[c]) {
        double top = scale.y(high[c]);
        double x = lane.getX() + c * VigilSpan.COLUMN;
        band.append(
            new Rectangle2D.Double(x, top, VigilSpan.COLUMN, Math.max(0.3, scale.y(low[c]) - top)),
            false);
      }
    }
    plate.fill(band, Palette::line);
  }

  private void line(Scale scale, int[] count, double[] sum) {
    Path2D line = new Path2D.Double();
    int before = -1;
    for (int c = 0; c < count.length; c++) {
      if (count[c] == 0) {
        continue;
      }
      double x = lane.getX() + (c + 0.5) * VigilSpan.COLUMN;
      double y = scale.y(sum[c] / count[c]);
      if (before >= 0 && watched(before, c, count.length)) {
        line.lineTo(x, y);
      } else {
        line.moveTo(x, y);
        line.lineTo(x + 0.01, y);
      }
      before = c;
    }
    plate.stroke(line, Palette::ink, 0.8);
  }

  /** Whether nothing is missing from one column to another. */
  private boolean watched(int first, int last, int columns) {
    long begin = span.begin(first, columns);
    long end = span.begin(last + 1, columns);
    for (Unwatched gap : gaps) {
      if (gap.fromMicros() < end && gap.toMicros() > begin) {
        return false;
      }
    }
    return true;
  }
}
