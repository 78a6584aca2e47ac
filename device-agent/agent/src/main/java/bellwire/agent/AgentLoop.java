package bellwire.agent;

import java.util.concurrent.locks.LockSupport;

/**
 * Steps the agent in real time, on the calling thread. Steps that are late are not made up for: the
 * time is an argument, and the agent counts what it missed.
 */
final class AgentLoop {
  private final Agent agent;
  private final long tickNanos;
  private volatile boolean ended;

  AgentLoop(Agent agent, int tickMicros) {
    this.agent = agent;
    tickNanos = tickMicros * 1000L;
  }

  /** Returns once {@link #end} was called. */
  void run() {
    long origin = System.nanoTime();
    long due = origin;
    while (!ended) {
      long now = System.nanoTime();
      if (now - due < 0) {
        LockSupport.parkNanos(due - now);
        continue;
      }
      agent.step((now - origin) / 1000);
      due = Math.max(due + tickNanos, now + tickNanos / 4);
    }
  }

  void end() {
    ended = true;
  }
}
