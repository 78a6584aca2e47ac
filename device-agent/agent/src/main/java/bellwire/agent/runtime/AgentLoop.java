package bellwire.agent.runtime;

import java.util.concurrent.locks.LockSupport;
import java.util.function.LongConsumer;

/**
 * Steps an agent in real time, on the calling thread. Steps that are late are not made up for: the
 * time is an argument, and the agent counts what it missed.
 */
public final class AgentLoop {
  private final LongConsumer step;
  private final long tickNanos;
  private volatile boolean ended;

  /**
   * @param step given microseconds since the loop began
   * @param tickMicros from one step to the next
   */
  public AgentLoop(LongConsumer step, int tickMicros) {
    this.step = step;
    tickNanos = tickMicros * 1000L;
  }

  /** Returns once {@link #end} was called. */
  public void run() {
    long origin = System.nanoTime();
    long due = origin;
    while (!ended) {
      long now = System.nanoTime();
      if (now - due < 0) {
        LockSupport.parkNanos(due - now);
        continue;
      }
      step.accept((now - origin) / 1000);
      due = Math.max(due + tickNanos, now + tickNanos / 4);
    }
  }

  /** From any thread: the step under way is the last. */
  public void end() {
    ended = true;
  }
}
