package bellwire.analysis.logic;

import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** A stage of two operands: brings their pieces to common ends. */
abstract class PairStage extends Stage {

  private static final double NEGATIVE = Double.NEGATIVE_INFINITY;
  private static final double POSITIVE = Double.POSITIVE_INFINITY;

  protected PieceQueue left = new PieceQueue();
  protected PieceQueue right = new PieceQueue();
  private Stage @Nullable [] operands;
  private int ended;

  /** Both are known up to here, or need not be. */
  protected long pairedMicros;

  PairStage(long beginMicros) {
    super(beginMicros);
    pairedMicros = beginMicros;
  }

  /** Bounds of both up to the moment. */
  protected abstract void takePair(
      long toMicros, double leftLow, double leftHigh, double rightLow, double rightHigh);

  /** Both have ended. */
  protected abstract void endPair(long endMicros, TraceEnd end);

  /** Whether the result is plain from these bounds of one operand, whatever the other is. */
  protected boolean decides(boolean isLeft, double low, double high) {
    return false;
  }

  /** One operand has pieces that the other has not reached. */
  protected void waits() {}

  void operands(Stage leftOperand, Stage rightOperand) {
    operands = new Stage[] {leftOperand, rightOperand};
  }

  protected Stage operand(int port) {
    if (operands == null) {
      throw new IllegalStateException("port=" + port);
    }
    return operands[port];
  }

  @Override
  void rejoin(UnaryOperator<Stage> copyOf) {
    super.rejoin(copyOf);
    operands(copyOf.apply(operand(0)), copyOf.apply(operand(1)));
  }

  @Override
  void take(int port, long toMicros, double low, double high) {
    (port == 0 ? left : right).add(toMicros, low, high);
    for (; ; ) {
      left.dropUntil(pairedMicros);
      right.dropUntil(pairedMicros);
      if (!left.isEmpty() && !right.isEmpty()) {
        pairedMicros = Math.min(left.to(), right.to());
        takePair(pairedMicros, left.low(), left.high(), right.low(), right.high());
      } else if (!left.isEmpty() && decides(true, left.low(), left.high())) {
        pairedMicros = left.to();
        takePair(pairedMicros, left.low(), left.high(), NEGATIVE, POSITIVE);
      } else if (!right.isEmpty() && decides(false, right.low(), right.high())) {
        pairedMicros = right.to();
        takePair(pairedMicros, NEGATIVE, POSITIVE, right.low(), right.high());
      } else {
        waits();
        return;
      }
    }
  }

  @Override
  void end(int port, long endMicros, TraceEnd end) {
    if (++ended == 2) {
      endPair(endMicros, end);
    }
  }

  @Override
  int held() {
    return left.size() + right.size();
  }

  @Override
  protected void unshare() {
    left = left.clone();
    right = right.clone();
  }
}
