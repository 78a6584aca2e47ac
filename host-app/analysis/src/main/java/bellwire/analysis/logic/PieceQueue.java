package bellwire.analysis.logic;

/** Pieces of a signal in order of time, each ending where the next begins. */
final class PieceQueue implements Cloneable {

  /** Pieces that may wait at one place of a formula. */
  static final int MOST = 1 << 20;

  private long[] to = new long[4];
  private double[] low = new double[4];
  private double[] high = new double[4];
  private int head;
  private int size;

  void add(long toMicros, double lowValue, double highValue) {
    if (size > 0) {
      int last = (head + size - 1) & (to.length - 1);
      if (low[last] == lowValue && high[last] == highValue) {
        to[last] = toMicros;
        return;
      }
    }
    if (size == to.length) {
      grow();
    }
    int place = (head + size) & (to.length - 1);
    to[place] = toMicros;
    low[place] = lowValue;
    high[place] = highValue;
    size++;
  }

  private void grow() {
    if (size == MOST) {
      throw new TooMuchPending(MOST);
    }
    long[] newTo = new long[2 * size];
    double[] newLow = new double[2 * size];
    double[] newHigh = new double[2 * size];
    for (int i = 0; i < size; i++) {
      int place = (head + i) & (size - 1);
      newTo[i] = to[place];
      newLow[i] = low[place];
      newHigh[i] = high[place];
    }
    to = newTo;
    low = newLow;
    high = newHigh;
    head = 0;
  }

  boolean isEmpty() {
    return size == 0;
  }

  int size() {
    return size;
  }

  /** End of the first piece. */
  long to() {
    return to[head];
  }

  double low() {
    return low[head];
  }

  double high() {
    return high[head];
  }

  /**
   * Makes one piece of the two before the last, and of the last two, where they lie within the span
   * and only their extremes matter.
   *
   * @param beginMicros where the first piece begins
   */
  void merge(long beginMicros, long fromMicros, long toMicros, boolean least) {
    if (size > 2) {
      merge(size - 3, beginMicros, fromMicros, toMicros, least);
    }
    if (size > 1) {
      merge(size - 2, beginMicros, fromMicros, toMicros, least);
    }
  }

  private void merge(int i, long beginMicros, long fromMicros, long toMicros, boolean least) {
    int mask = to.length - 1;
    int first = (head + i) & mask;
    int second = (first + 1) & mask;
    long begin = i == 0 ? beginMicros : to[(first - 1) & mask];
    if (begin < fromMicros || to[second] > toMicros) {
      return;
    }
    to[first] = to[second];
    low[first] = least ? Math.min(low[first], low[second]) : Math.max(low[first], low[second]);
    high[first] = least ? Math.min(high[first], high[second]) : Math.max(high[first], high[second]);
    if (i + 2 < size) {
      int third = (second + 1) & mask;
      to[second] = to[third];
      low[second] = low[third];
      high[second] = high[third];
    }
    size--;
  }

  void remove() {
    head = (head + 1) & (to.length - 1);
    size--;
  }

  /** Forgets the pieces that end at or before the moment. */
  void dropUntil(long micros) {
    while (size > 0 && to[head] <= micros) {
      remove();
    }
  }

  @Override
  public PieceQueue clone() {
    try {
      PieceQueue copy = (PieceQueue) super.clone();
      copy.to = to.clone();
      copy.low = low.clone();
      copy.high = high.clone();
      return copy;
    } catch (CloneNotSupportedException e) {
      throw new AssertionError(e);
    }
  }
}
