package bellwire.app.vigil;

/** What was seen so far of each conductor or lead. */
final class Tally {
  private static final int MOST = 17;

  private final long[] events = new long[MOST];
  private final long[] brief = new long[MOST];
  private final long[] lastMicros = new long[MOST];
  private final long[] longestMicros = new long[MOST];

  Tally() {
    java.util.Arrays.fill(lastMicros, -1);
  }

  void add(int at, long firstMicros, long micros, boolean shorterThanATick) {
    events[at]++;
    brief[at] += shorterThanATick ? 1 : 0;
    lastMicros[at] = Math.max(lastMicros[at], firstMicros);
    longestMicros[at] = Math.max(longestMicros[at], micros);
  }

  /**
   * @param ports a bit for each
   */
  void addAll(int ports, long firstMicros, long micros, boolean shorterThanATick) {
    for (int left = ports; left != 0; left &= left - 1) {
      add(Integer.numberOfTrailingZeros(left), firstMicros, micros, shorterThanATick);
    }
  }

  VigilView.Row row(int at, String name, long nowMicros, String now) {
    long last = lastMicros[at];
    return new VigilView.Row(
        name,
        events[at],
        brief[at],
        last < 0 ? -1 : Math.max(0, nowMicros - last),
        longestMicros[at],
        now);
  }
}
