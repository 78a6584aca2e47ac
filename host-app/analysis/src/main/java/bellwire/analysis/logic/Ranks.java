package bellwire.analysis.logic;

/**
 * Moments with values that run only one way: the double-ended queue of Lemire, Streaming
 * maximum-minimum filter using no more than three comparisons per element, Nordic J. Computing 13
 * (2006). The owner keeps the order; here is only the ring.
 */
final class Ranks implements Cloneable {

  private long[] at = new long[4];
  private double[] value = new double[4];
  private int head;
  private int size;

  boolean isEmpty() {
    return size == 0;
  }

  int size() {
    return size;
  }

  void addLast(long micros, double v) {
    if (size == at.length) {
      grow();
    }
    int place = (head + size) & (at.length - 1);
    at[place] = micros;
    value[place] = v;
    size++;
  }

  private void grow() {
    if (size == PieceQueue.MOST) {
      throw new TooMuchPending(PieceQueue.MOST);
    }
    long[] newAt = new long[2 * size];
    double[] newValue = new double[2 * size];
    for (int i = 0; i < size; i++) {
      int place = (head + i) & (size - 1);
      newAt[i] = at[place];
      newValue[i] = value[place];
    }
    at = newAt;
    value = newValue;
    head = 0;
  }

  void clear() {
    head = 0;
    size = 0;
  }

  long firstAt() {
    return at[head];
  }

  double first() {
    return value[head];
  }

  /** The second moment, or the one given where there is no second. */
  long secondAt(long otherwise) {
    return size > 1 ? at[(head + 1) & (at.length - 1)] : otherwise;
  }

  long lastAt() {
    return at[(head + size - 1) & (at.length - 1)];
  }

  double last() {
    return value[(head + size - 1) & (at.length - 1)];
  }

  void removeFirst() {
    head = (head + 1) & (at.length - 1);
    size--;
  }

  void removeLast() {
    size--;
  }

  @Override
  public Ranks clone() {
    try {
      Ranks copy = (Ranks) super.clone();
      copy.at = at.clone();
      copy.value = value.clone();
      return copy;
    } catch (CloneNotSupportedException e) {
      throw new AssertionError(e);
    }
  }
}
