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
