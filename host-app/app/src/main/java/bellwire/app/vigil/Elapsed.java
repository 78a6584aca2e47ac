package bellwire.app.vigil;

import java.util.function.LongSupplier;

/**
 * The time since a vigil's start, by clocks that nobody sets: this program's from its own start on,
 * the board's before that, and the wall clock where neither knows more.
 */
final class Elapsed {
  private final LongSupplier nowMicros;
  private long sinceMicros;
  private long atMicros;

  /**
   * @param nowMicros monotonic, from any origin
   */
  Elapsed(LongSupplier nowMicros) {
    this.nowMicros = nowMicros;
  }

  /**
   * Begins to count.
   *
   * @param sinceMicros since the vigil's start, as far as is known
   */
  void from(long sinceMicros) {
    this.sinceMicros = sinceMicros;
    atMicros = nowMicros.getAsLong();
  }

  /** Whatever a clock that was set back says, the vigil has come so far. */
  void atLeast(long micros) {
    if (micros > micros()) {
      from(micros);
    }
  }

  long micros() {
    return sinceMicros + nowMicros.getAsLong() - atMicros;
  }
}
