package bellwire.benchmarks;

import java.util.Arrays;
import java.util.Locale;

/** The median of some runs, and the least and the greatest of them, in one unit. */
record Figure(double median, double least, double greatest) {

  static Figure of(double... runs) {
    double[] sorted = runs.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    double median = sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    return new Figure(median, sorted[0], sorted[sorted.length - 1]);
  }

  /** With three digits of the median, such as '12.3 (11.9 to 14.0)'. */
  @Override
  public String toString() {
    int digits = (int) Math.max(0, 2 - Math.floor(Math.log10(Math.max(median, 1e-9))));
    return least == greatest
        ? text(median, digits)
        : text(median, digits) + " (" + text(least, digits) + " to " + text(greatest, digits) + ")";
  }

  private static String text(double value, int digits) {
    return String.format(Locale.ROOT, "%." + Math.min(digits, 6) + "f", value);
  }
}
