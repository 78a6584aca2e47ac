package bellwire.app.job;

/**
 * Whole numbers as their distance from a smoothed course of those before them, which reading
 * repeats exactly. Distances are folded: 0, −1, 1, −2 become 0, 1, 2, 3.
 */
final class Course {
  private static final int FRACTION_BITS = 8;

  /** An eighth: white noise grows by 3 %, a drift is followed within some ten samples. */
  private static final int SMOOTHING_BITS = 3;

  private static final int HALF = 1 << (FRACTION_BITS - 1);

  private long level;
  private boolean started;

  /** What stands for the next value. */
  int folded(int value) {
    int residual = value - next();
    take(value);
    return residual << 1 ^ residual >> 31;
  }

  /** The values again, of distances from one place on. */
  static int[] values(long[] folded, int begin, int count) {
    int[] values = new int[count];
    long level = count == 0 ? 0 : (long) unfolded(folded[begin]) << FRACTION_BITS;
    long expected = 0;
    for (int i = 0; i < count; i++) {
      int value = (int) expected + unfolded(folded[begin + i]);
      level += (((long) value << FRACTION_BITS) - level) >> SMOOTHING_BITS;
      expected = (level + HALF) >> FRACTION_BITS;
      values[i] = value;
    }
    return values;
  }

  private static int unfolded(long folded) {
    return (int) (folded >>> 1) ^ -(int) (folded & 1);
  }

  private int next() {
    return (int) ((level + HALF) >> FRACTION_BITS);
  }

  private void take(int value) {
    long scaled = (long) value << FRACTION_BITS;
    level = started ? level + ((scaled - level) >> SMOOTHING_BITS) : scaled;
    started = true;
  }
}
