package bellwire.app.desk.vigil;

import bellwire.app.vigil.VigilPicture.Course;
import java.util.Locale;

/**
 * The ohms between a lane's lower and upper edge.
 *
 * @param low at the lower edge; NaN where there is nothing to show
 */
record LaneScale(double low, double high) {
  /** A lane is never so fine that the converter's noise fills it. */
  private static final double LEAST_READINGS = 12;

  private static final double ROOM = 0.1;

  static LaneScale of(Course course) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < course.points(); i++) {
      low = Math.min(low, course.low()[i]);
      high = Math.max(high, course.high()[i]);
    }
    if (low > high) {
      return new LaneScale(Double.NaN, Double.NaN);
    }
    double least = Math.max(LEAST_READINGS * course.readingOhms(), 1e-9);
    double room = Math.max((least - (high - low)) / 2, ROOM * (high - low));
    return new LaneScale(low - room, high + room);
  }

  /** 0 at the lower edge, 1 at the upper. */
  double share(double ohms) {
    return (ohms - low) / (high - low);
  }

  /** '0.4120 to 0.4231 ohm'. */
  String words() {
    if (Double.isNaN(low)) {
      return "";
    }
    int digits = (int) Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(high - low))));
    String number = "%." + digits + "f";
    return String.format(Locale.ROOT, number + " to " + number + " ohm", low, high);
  }
}
