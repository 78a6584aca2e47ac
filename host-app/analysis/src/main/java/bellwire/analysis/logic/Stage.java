package bellwire.analysis.logic;

import java.util.Arrays;
import java.util.function.UnaryOperator;

/**
 * One operator of a formula at work. It takes the signals of its operands piece by piece, and gives
 * its own as soon as it is final. Every signal begins where the trace begins.
 */
abstract class Stage implements Cloneable {

  private Stage[] takers = {};
  private int[] ports = {};

  /** The signal given so far ends here. */
  protected long givenMicros;

  Stage(long beginMicros) {
    givenMicros = beginMicros;
  }

  /** The operand's signal has these bounds from where its last piece ended to before the moment. */
  abstract void take(int port, long toMicros, double low, double high);

  /** The operand has given its whole signal, and the trace ends at the moment. */
  abstract void end(int port, long endMicros, TraceEnd end);

  /** Pieces held. */
  abstract int held();

  /** After {@link #clone}: replace what is shared with the original. */
  protected abstract void unshare();

  /**
   * Moments from here to before {@link #steadyToMicros} are still open, and will all get the same
   * value.
   */
  long steadyFromMicros() {
    return Long.MAX_VALUE;
  }

  long steadyToMicros() {
    return Long.MIN_VALUE;
  }

  Stage[] takers() {
    return takers;
  }

  void feed(Stage taker, int port) {
    takers = Arrays.copyOf(takers, takers.length + 1);
    ports = Arrays.copyOf(ports, ports.length + 1);
    takers[takers.length - 1] = taker;
    ports[ports.length - 1] = port;
  }

  /** After {@link #clone}: join the copies as the originals are. */
  void rejoin(UnaryOperator<Stage> copyOf) {
    takers = Arrays.stream(takers).map(copyOf).toArray(Stage[]::new);
  }

  /** What lies before {@link #givenMicros} has been given already, and is left out. */
  protected final void give(long toMicros, double low, double high) {
    if (toMicros > givenMicros) {
      givenMicros = toMicros;
      for (int i = 0; i < takers.length; i++) {
        takers[i].take(ports[i], toMicros, low, high);
      }
    }
  }

  protected final void giveEnd(long endMicros, TraceEnd end) {
    for (int i = 0; i < takers.length; i++) {
      takers[i].end(ports[i], endMicros, end);
    }
  }

  @Override
  public Stage clone() {
    try {
      Stage copy = (Stage) super.clone();
      copy.unshare();
      return copy;
    } catch (CloneNotSupportedException e) {
      throw new AssertionError(e);
    }
  }
}
