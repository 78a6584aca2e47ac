package bellwire.analysis.vigil;

/**
 * One conductor's resistances in the order of time.
 *
 * @param port from 0
 * @param micros when each was read
 * @param ohms as many; NaN where it was open, or far from what was expected
 * @param readingOhms standard deviation that the converter gives one of them
 */
public record TrendSeries(int port, long[] micros, double[] ohms, double readingOhms) {
  public TrendSeries {
    if (micros.length != ohms.length || !(readingOhms > 0)) {
      throw new IllegalArgumentException(
          "port="
              + port
              + " micros="
              + micros.length
              + " ohms="
              + ohms.length
              + " readingOhms="
              + readingOhms);
    }
  }
}
