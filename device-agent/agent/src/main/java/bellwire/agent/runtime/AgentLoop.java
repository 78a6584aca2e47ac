package bellwire.agent.runtime;

import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

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
  private final @Nullable Measurement measurement;
  private volatile boolean ended;

  /**
   * @param tickMicros from one step to the next
   */
  public AgentLoop(LoopClock clock, Step step, int tickMicros) {
    this(clock, step, tickMicros, null);
  }

  /**
   * @param tickMicros from one step to the next
   * @param measurement told of each step, and ends the loop; null for none
   */
  public AgentLoop(LoopClock clock, Step step, int tickMicros, @Nullable Measurement measurement) {
    this.clock = clock;
    this.step = step;
    this.measurement = measurement;
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
      if (measurement != null && measurement.step(due / 1000, now / 1000, clock.micros())) {
        ended = true;
      }
      due = Math.max(due + tickNanos, now + tickNanos / 4);
    }
  }

  /** From any thread: the step under way is the last. */
  public void end() {
    ended = true;
  }
}
