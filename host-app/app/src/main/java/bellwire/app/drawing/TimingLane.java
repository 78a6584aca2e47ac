package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.Stretch;
import java.awt.geom.Rectangle2D;
import java.util.List;

/** A terminal's levels as a band: by height, and by pattern. */
final class TimingLane {
  /** Narrower stretches can't be told apart. */
  private static final double LEAST = 0.8;

  private final Plate plate;
  private final double left;
  private final double right;
  private final double top;
  private final double bottom;

  /** A run of stretches too short to draw one by one. */
  private double busyFrom = Double.NaN;

  private double busyTo;
  private boolean busyOn;
  private boolean busyUnknown;

  TimingLane(Plate plate, double left, double right, double top, double bottom) {
    this.plate = plate;
    this.left = left;
    this.right = right;
    this.top = top;
    this.bottom = bottom;
  }

  void sample(Level level) {
    stretch(level, left, right);
  }

  void draw(Lane lane, long fromMicros, long toMicros) {
    List<Stretch> stretches = lane.stretches();
    Level level = Level.UNKNOWN;
    double begin = left;
    for (int i = firstAfter(stretches, fromMicros); i <= stretches.size(); i++) {
      boolean last = i == stretches.size() || stretches.get(i).fromMicros() >= toMicros;
      if (i > 0 && begin == left) {
        level = stretches.get(i - 1).level();
      }
      double share =
          last
              ? 1
              : Math.max(
                  0,
                  (double) (stretches.get(i).fromMicros() - fromMicros) / (toMicros - fromMicros));
      double end = left + (right - left) * share;
      add(level, begin, end);
      if (last) {
        break;
      }
      begin = end;
      level = stretches.get(i).level();
    }
    endBusy();
  }

  /** Index of the first stretch that begins after a moment. */
  private static int firstAfter(List<Stretch> stretches, long micros) {
    int low = 0;
    int high = stretches.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (stretches.get(middle).fromMicros() > micros) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private void add(Level level, double begin, double end) {
    if (end - begin < LEAST) {
      busyFrom = Double.isNaN(busyFrom) ? begin : busyFrom;
      busyTo = end;
      busyOn |= level == Level.ON;
      busyUnknown |= level == Level.UNKNOWN;
      return;
    }
    endBusy();
    stretch(level, begin, end);
  }

  private void endBusy() {
    if (!Double.isNaN(busyFrom)) {
      double wide = Math.max(1, busyTo - busyFrom);
      double high = busyOn || busyUnknown ? bottom - top : (bottom - top) / 2;
      plate.fill(new Rectangle2D.Double(busyFrom, bottom - high, wide, high), Palette::accent);
    }
    busyFrom = Double.NaN;
    busyOn = false;
    busyUnknown = false;
  }

  private void stretch(Level level, double begin, double end) {
    double wide = end - begin;
    Rectangle2D full = new Rectangle2D.Double(begin, top, wide, bottom - top);
    double middle = (top + bottom) / 2;
    switch (level) {
      case ON -> {
        plate.fill(full, Palette::accent);
        plate.stroke(full, Palette::ink, 0.6);
      }
      case WEAK -> {
        Rectangle2D half = new Rectangle2D.Double(begin, middle, wide, bottom - middle);
        for (double x = begin; x < end; x += 4) {
          double bar = Math.min(2, end - x);
          plate.fill(new Rectangle2D.Double(x, middle, bar, bottom - middle), Palette::accent);
        }
        plate.stroke(half, Palette::ink, 0.6);
      }
      case OFF -> plate.line(begin, bottom, end, bottom, Palette::ink, 1.2);
      case UNKNOWN -> {
        plate.fill(full, Palette::panel);
        plate.hatch(full, Palette::line, 5, 0.8);
      }
    }
  }
}
