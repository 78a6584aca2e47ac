package bellwire.simbench.control;

/** The present moment of one look at a control, and the next one at which to look again. */
final class Alarm {
  static final long NEVER = Long.MAX_VALUE;

  private long nowNanos;
  private long nextNanos = NEVER;

  Alarm() {}

  Alarm(Alarm other) {
    nowNanos = other.nowNanos;
    nextNanos = other.nextNanos;
  }

  /** Begins a look. */
  void look(long nanos) {
    nowNanos = nanos;
    nextNanos = NEVER;
  }

  long now() {
    return nowNanos;
  }

  /** Whether a moment has come; one to come is looked at again. */
  boolean reached(long nanos) {
    if (nanos <= nowNanos) {
      return true;
    }
    nextNanos = Math.min(nextNanos, nanos);
    return false;
  }

  /** When something can be different from what the last look found. */
  long next() {
    return nextNanos;
  }
}
