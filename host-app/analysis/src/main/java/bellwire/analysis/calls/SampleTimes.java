package bellwire.analysis.calls;

/** When the last words were read. Each was read at a moment between its begin and its end. */
final class SampleTimes {
  static final int KEPT = 64;

  private final long[] begin = new long[KEPT];
  private final long[] end = new long[KEPT];
  private long count;

  void add(long beginMicros, long endMicros) {
    int slot = (int) (count & KEPT - 1);
    begin[slot] = beginMicros;
    end[slot] = endMicros;
    count++;
  }

  void clear() {
    count = 0;
  }

  /** Index of the latest, −1 for none. */
  long latest() {
    return count - 1;
  }

  long oldest() {
    return Math.max(0, count - KEPT);
  }

  long begin(long index) {
    return begin[(int) (index & KEPT - 1)];
  }

  long end(long index) {
    return end[(int) (index & KEPT - 1)];
  }
}
