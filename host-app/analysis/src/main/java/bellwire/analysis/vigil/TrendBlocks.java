package bellwire.analysis.vigil;

import java.util.Arrays;

/**
 * Series averaged over blocks of time, the same ones for all.
 *
 * @param fromMicros begin of the first
 * @param blockMicros length of each
 * @param mean by series and block; NaN where nothing was read
 * @param count values in each
 */
record TrendBlocks(long fromMicros, long blockMicros, double[][] mean, int[][] count) {

  static TrendBlocks of(java.util.List<TrendSeries> series, long from, long to, int blocks) {
    long length = Math.max(1, (to - from + blocks) / blocks);
    double[][] mean = new double[series.size()][blocks];
    int[][] count = new int[series.size()][blocks];
    for (int s = 0; s < series.size(); s++) {
      TrendSeries each = series.get(s);
      for (int i = 0; i < each.ohms().length; i++) {
        int block = (int) ((each.micros()[i] - from) / length);
        if (block >= 0 && block < blocks && !Double.isNaN(each.ohms()[i])) {
          mean[s][block] += each.ohms()[i];
          count[s][block]++;
        }
      }
      for (int b = 0; b < blocks; b++) {
        mean[s][b] = count[s][b] == 0 ? Double.NaN : mean[s][b] / count[s][b];
      }
    }
    return new TrendBlocks(from, length, mean, count);
  }

  int blocks() {
    return mean.length == 0 ? 0 : mean[0].length;
  }

  long midMicros(int block) {
    return fromMicros + block * blockMicros + blockMicros / 2;
  }

  /** The middle of the values there are; NaN without one. */
  static double median(double[] values) {
    double[] there = Arrays.stream(values).filter(v -> !Double.isNaN(v)).sorted().toArray();
    int n = there.length;
    return n == 0 ? Double.NaN : (there[(n - 1) / 2] + there[n / 2]) / 2;
  }
}
