package bellwire.agent.runtime;

import java.util.concurrent.locks.LockSupport;

/**
 * Steps an agent in real time, on the calling thread. Steps that are late are not made up for: the
 * time is an argument, and the agent counts what it missed.
 */
public final class AgentLoop {

  /** What is done each tick. */
  public interface Step {
    /**
     * @param nowMicros of the loop's clock
     * @param dueMicros when the step should have begun, never later
     */
    void step(long nowMicros, long dueMicros);
  }

  private final LoopClock clock;
  private final Step step;
  private final long tickNanos;
  private volatile boolean ended;

  /**
   * @param tickMicros from one step to the next
   */
  public AgentLoop(LoopClock clock, Step step, int tickMicros) {
    this.clock = clock;
    this.step = step;
    tickNanos = tickMicros * 1000L;
  }

  /** Returns once {@link #end} was called. */
  public void run() {
    long due = clock.nanos();
    while (!ended) {
      long now = clock.nanos();
      if (now < due) {
        LockSupport.parkNanos(due - now);
        continue;
      }
      step.step(now / 1000, due / 1000);
      due = Math.max(due + tickNanos, now + tickNanos / 4);
    }
  }

  /** From any thread: the step under way is the last. */
  public void end() {
    ended = true;
  }
}
