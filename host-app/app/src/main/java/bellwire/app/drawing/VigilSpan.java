package bellwire.app.drawing;

import java.awt.geom.Rectangle2D;

/** A vigil's time as a stretch of paper, in columns as narrow as can be seen. */
record VigilSpan(long fromMicros, long toMicros) {
  /** A column's width, in the drawing's units. */
  static final double COLUMN = 0.8;

  /** What is shorter is drawn so wide. */
  static final double LEAST = 1.2;

  static int columns(Rectangle2D lane) {
    return Math.max(1, (int) (lane.getWidth() / COLUMN));
  }

  private double share(long micros) {
    return (double) (micros - fromMicros) / (toMicros - fromMicros);
  }

  double x(Rectangle2D plot, long micros) {
    return plot.getX() + plot.getWidth() * Math.max(0, Math.min(1, share(micros)));
  }

  int column(long micros, int columns) {
    return (int) Math.max(0, Math.min(columns - 1, share(micros) * columns));
  }

  /** When a column begins; the one after the last, when the time is over. */
  long begin(int column, int columns) {
    return fromMicros + (toMicros - fromMicros) / columns * column;
  }
}
