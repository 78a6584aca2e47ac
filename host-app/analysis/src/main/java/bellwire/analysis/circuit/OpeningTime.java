package bellwire.analysis.circuit;

import java.util.Locale;

/**
 * When a fuse opens, as far as its published limits tell.
 *
 * @param earliestSeconds it does not open before
 * @param latestSeconds it has opened by then; infinite where it may never
 */
public record OpeningTime(double earliestSeconds, double latestSeconds) {
  /** Carries its current for good. */
  public static final OpeningTime NEVER =
      new OpeningTime(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  public boolean certain() {
    return latestSeconds < Double.POSITIVE_INFINITY;
  }

  public boolean possible() {
    return earliestSeconds < Double.POSITIVE_INFINITY;
  }

  /** In words, such as 'opens after 0.02 s to 0.1 s'. */
  public String words() {
    if (!possible()) {
      return "holds";
    }
    if (!certain()) {
      return earliestSeconds > 0
          ? "may open after " + time(earliestSeconds) + ", or never"
          : "may open, or never";
    }
    return earliestSeconds > 0
        ? "opens after " + time(earliestSeconds) + " to " + time(latestSeconds)
        : "opens within " + time(latestSeconds);
  }

  private static String time(double seconds) {
    if (seconds >= 7200) {
      return figure(seconds / 3600) + " h";
    }
    return seconds >= 300 ? figure(seconds / 60) + " min" : figure(seconds) + " s";
  }

  private static String figure(double value) {
    return String.format(Locale.ROOT, value < 0.1 ? "%.3f" : "%.2f", value)
        .replaceFirst("\\.?0+$", "");
  }
}
