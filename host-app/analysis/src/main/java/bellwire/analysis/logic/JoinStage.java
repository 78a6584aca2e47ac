package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Connective;

/** A connective, moment by moment. */
final class JoinStage extends PairStage {

  private final Connective connective;

  JoinStage(long beginMicros, Connective connective) {
    super(beginMicros);
    this.connective = connective;
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
