package bellwire.analysis.logic;

/**
 * One bound of {@code left until right} at every moment still open. With Phi(t) the least left from
 * t to now and V(t) the greatest right since t that left had not fallen below, V grows only up to
 * Phi, and Phi only falls: a moment is final once Phi is not above V. Phi ascends and V descends
 * with t, so that the final moments are the earliest. docs/temporal-logic.md has the argument.
 */
final class Promise implements Cloneable {

  private final boolean weak;
  private Ranks left = new Ranks();
  private Ranks right = new Ranks();

  /** Final values not yet fetched; both bounds of a piece are the value. */
  private PieceQueue finals = new PieceQueue();

  private long openMicros;
  private long seenMicros;

  Promise(long beginMicros, boolean weak) {
    this.weak = weak;
    openMicros = beginMicros;
    seenMicros = beginMicros;
  }

  /**
   * Both operands are constant up to the moment.
   *
   * @param lastMicros no moment from there on is of interest by itself
   */
  void take(long toMicros, double leftValue, double rightValue, long lastMicros) {
    while (!left.isEmpty() && left.first() <= rightValue) {
      settle(Math.max(left.first(), right.first()));
    }
    long begin = seenMicros;
    seenMicros = Math.max(begin, Math.min(toMicros, lastMicros));
    if (openMicros == seenMicros) {
      return;
    }
    lower(right, begin, rightValue, false);
    lower(left, begin, leftValue, true);
    while (!left.isEmpty() && left.first() <= right.first()) {
      settle(right.first());
    }
  }

  /**
   * The value reaches back over all that it is lower than, or higher than; and over new moments.
   */
  private void lower(Ranks ranks, long newMicros, double value, boolean ascending) {
    long begin = newMicros;
    while (!ranks.isEmpty() && (ascending ? ranks.last() >= value : ranks.last() <= value)) {
      begin = ranks.lastAt();
      ranks.removeLast();
    }
    if (begin < seenMicros) {
      ranks.addLast(begin, value);
    }
  }

  private void settle(double value) {
    settle(Math.min(left.secondAt(seenMicros), right.secondAt(seenMicros)), value);
  }

  private void settle(long toMicros, double value) {
    finals.add(toMicros, value, value);
    openMicros = toMicros;
    forget(left);
    forget(right);
  }

  private void forget(Ranks ranks) {
    while (!ranks.isEmpty() && ranks.secondAt(seenMicros) <= openMicros) {
      ranks.removeFirst();
    }
  }

  /** Makes final, as they stand, all moments before the given one. */
  void force(long toMicros) {
    long limit = Math.min(toMicros, seenMicros);
    while (openMicros < limit) {
      long to = Math.min(left.secondAt(seenMicros), right.secondAt(seenMicros));
      settle(Math.min(to, limit), standing());
    }
  }

  private double standing() {
    return weak ? Math.max(left.first(), right.first()) : right.first();
  }

  /** Open moments from here on will get the same value. */
  long steadyFromMicros() {
    return left.isEmpty()
        ? Long.MAX_VALUE
        : Math.max(openMicros, Math.max(left.lastAt(), right.lastAt()));
  }

  long seenMicros() {
    return seenMicros;
  }

  PieceQueue finals() {
    return finals;
  }

  int held() {
    return left.size() + right.size() + finals.size();
  }

  @Override
  public Promise clone() {
    try {
      Promise copy = (Promise) super.clone();
      copy.left = left.clone();
      copy.right = right.clone();
      copy.finals = finals.clone();
      return copy;
    } catch (CloneNotSupportedException e) {
      throw new AssertionError(e);
    }
  }
}
