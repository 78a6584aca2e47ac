package bellwire.agent.runtime;

/** Monotonic time since the clock was made. */
public final class LoopClock {
  private final long origin = System.nanoTime();

  public long nanos() {
    return System.nanoTime() - origin;
  }

  public long micros() {
    return nanos() / 1000;
  }
}
