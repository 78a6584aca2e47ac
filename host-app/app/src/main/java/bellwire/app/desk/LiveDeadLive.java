package bellwire.app.desk;

import java.util.Locale;

/**
 * A meter's three readings that prove a cable dead: on a live source, on the cable, on the live
 * source again, which shows that the meter still worked in between.
 *
 * @param words for the record, such as '24.6 V, 0.0 V, 24.5 V'; empty where nothing is proved
 * @param trouble why nothing is proved, and what to do; empty where it is
 */
record LiveDeadLive(String words, String trouble) {
  /** The board's own window about zero (hardware-notes/sensing-board-a.yaml). */
  private static final double DEAD_VOLTS = 1;

  /** What a live source has to show at least, a battery of 9 V included. CP. */
  private static final double LIVE_VOLTS = 5;

  /** Two readings of one source differ by less, unless the meter or its leads are bad. CP. */
  private static final double SAME = 0.2;

  static LiveDeadLive of(String live, String dead, String again) {
    double first = volts(live);
    double middle = volts(dead);
    double last = volts(again);
    if (Double.isNaN(first) || Double.isNaN(middle) || Double.isNaN(last)) {
      return unproved("Enter all three readings in volts, such as 24.6, 0.0 and 24.5.");
    }
    if (first < LIVE_VOLTS || last < LIVE_VOLTS) {
      return unproved(
          "The meter has shown no live source: try it on one of at least 5 V, before and after.");
    }
    if (Math.abs(first - last) > SAME * Math.max(first, last)) {
      return unproved(
          "The live source reads differently before and after: check meter and leads, then prove"
              + " again.");
    }
    if (middle >= DEAD_VOLTS) {
      return unproved(
          "NOT DEAD: the meter shows voltage on the cable. Find the other supply, switch it off,"
              + " and prove again. Connect nothing.");
    }
    return new LiveDeadLive(
        String.format(Locale.ROOT, "live %.1f V, cable %.1f V, live %.1f V", first, middle, last),
        "");
  }

  private static LiveDeadLive unproved(String trouble) {
    return new LiveDeadLive("", trouble);
  }

  /** The amount of volts typed, whatever the sign; NaN for what is no figure. */
  private static double volts(String typed) {
    String figure = typed.trim().replace(',', '.').replaceFirst("(?i)\\s*v$", "");
    try {
      double volts = Math.abs(Double.parseDouble(figure));
      return Double.isFinite(volts) ? volts : Double.NaN;
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }
}
