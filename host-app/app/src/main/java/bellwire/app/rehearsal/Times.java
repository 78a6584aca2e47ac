package bellwire.app.rehearsal;

import java.util.Locale;

/** Durations in words. */
public final class Times {
  /** No time that was measured. */
  private static final long FOREVER = 400L * 86_400 * 1_000_000;

  private static final long HOURS_FROM_MINUTES = 120;

  private Times() {}

  /** '20 ms', '4.2 s', '45 s', '5 min', '5 min 20 s', '2 h 14 min'. */
  public static String words(long micros) {
    if (micros < 1_000_000 && micros > 0) {
      return number(micros / 1000.0, 1) + " ms";
    }
    if (micros < 120_000_000) {
      return number(micros / 1e6, micros < 10_000_000 ? 2 : 1) + " s";
    }
    long seconds = Math.round(micros / 1e6);
    long minutes = seconds / 60;
    if (minutes >= HOURS_FROM_MINUTES) {
      return minutes % 60 == 0 ? minutes / 60 + " h" : minutes / 60 + " h " + minutes % 60 + " min";
    }
    return seconds % 60 == 0 ? minutes + " min" : minutes + " min " + seconds % 60 + " s";
  }

  /** '4:09' for a countdown. */
  public static String clock(long micros) {
    long seconds = Math.max(0, (micros + 999_999) / 1_000_000);
    return seconds / 60 + String.format(Locale.ROOT, ":%02d", seconds % 60);
  }

  /** '4:09' since the begin, seconds cut off. */
  public static String sinceWords(long micros) {
    return clock(Math.max(0, micros) / 1_000_000 * 1_000_000);
  }

  /** A time known to lie between two, with the digits that warrants: '287.42 s', '2.1 to 2.6 s'. */
  public static String measured(long lowMicros, long highMicros) {
    if (highMicros >= FOREVER || lowMicros <= 0 && highMicros > 60_000_000) {
      return highMicros >= FOREVER
          ? "more than " + words(Math.max(0, lowMicros))
          : "up to " + words(highMicros);
    }
    double half = (highMicros - lowMicros) / 2e6;
    double middle = (lowMicros + highMicros) / 2e6;
    if (half > 0.05 * Math.max(middle, 0.1)) {
      int digits = half < 0.1 ? 3 : 1;
      return number(lowMicros / 1e6, digits) + " to " + number(highMicros / 1e6, digits) + " s";
    }
    int digits = half < 0.005 ? 3 : half < 0.05 ? 2 : half < 0.5 ? 1 : 0;
    String seconds = number(middle, digits) + " s";
    return middle < 120 ? seconds : seconds + " (" + words(Math.round(middle) * 1_000_000) + ")";
  }

  private static String number(double value, int digits) {
    String text = String.format(Locale.ROOT, "%." + digits + "f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }
}
