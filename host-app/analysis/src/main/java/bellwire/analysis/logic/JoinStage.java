package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Connective;

/** A connective, moment by moment. */
final class JoinStage extends PairStage {

  /** What the taker makes of all moments together. */
  private enum Kept {
    EACH,
    LEAST,
    GREATEST
  }

  private final Connective connective;
  private Kept kept = Kept.EACH;

  JoinStage(long beginMicros, Connective connective) {
    super(beginMicros);
    this.connective = connective;
  }

  /** Only the least value of the whole signal is wanted, or the greatest. */
  void keepExtreme(boolean least) {
    if (connective != Connective.IFF && connective != Connective.XOR) {
      kept = least ? Kept.LEAST : Kept.GREATEST;
    }
  }

  /**
   * Where the other operand will have one value over a stretch, the extreme of the result there is
   * that of this operand's extreme.
   */
  @Override
  protected void waits() {
    if (kept != Kept.EACH) {
      boolean least = kept == Kept.LEAST;
      Stage other = operand(left.isEmpty() ? 0 : 1);
      PieceQueue waiting = left.isEmpty() ? right : left;
      boolean falls = waiting == left && connective == Connective.IMPLIES;
      waiting.merge(pairedMicros, other.steadyFromMicros(), other.steadyToMicros(), least != falls);
    }
  }

  @Override
  protected void takePair(long to, double aLow, double aHigh, double bLow, double bHigh) {
    switch (connective) {
      case AND -> give(to, Math.min(aLow, bLow), Math.min(aHigh, bHigh));
      case OR -> give(to, Math.max(aLow, bLow), Math.max(aHigh, bHigh));
      case IMPLIES -> give(to, Math.max(-aHigh, bLow), Math.max(-aLow, bHigh));
      case IFF -> give(to, alike(aLow, aHigh, bLow, bHigh), -alike(-aHigh, -aLow, bLow, bHigh));
      case XOR -> give(to, alike(-aHigh, -aLow, bLow, bHigh), -alike(aLow, aHigh, bLow, bHigh));
    }
  }

  /** The lower bound of (a and b) or (not a and not b), as (not a or b) and (a or not b). */
  private static double alike(double aLow, double aHigh, double bLow, double bHigh) {
    return Math.min(Math.max(-aHigh, bLow), Math.max(aLow, -bHigh));
  }

  @Override
  protected boolean decides(boolean isLeft, double low, double high) {
    return switch (connective) {
      case AND -> high == Double.NEGATIVE_INFINITY;
      case OR -> low == Double.POSITIVE_INFINITY;
      case IMPLIES -> isLeft ? high == Double.NEGATIVE_INFINITY : low == Double.POSITIVE_INFINITY;
      case IFF, XOR -> false;
    };
  }

  @Override
  protected void endPair(long endMicros, TraceEnd end) {
    giveEnd(endMicros, end);
  }
}
