package bellwire.agent.runtime;

import java.util.ArrayList;
import java.util.List;

/** How well a loop keeps its tick, and what Java takes meanwhile, for some time. */
public final class Measurement {
  private final long micros;
  private final TickFigures ticks;
  private final MemoryFigures memory = new MemoryFigures();

  /**
   * Of the thread that makes it.
   *
   * @param seconds until the loop ends
   */
  public Measurement(int seconds, int tickMicros) {
    micros = seconds * 1_000_000L;
    ticks = new TickFigures(tickMicros);
  }

  /**
   * @return whether the time is over
   */
  boolean step(long dueMicros, long beganMicros, long endedMicros) {
    ticks.step(dueMicros, beganMicros, endedMicros);
    return endedMicros >= micros;
  }

  public TickFigures ticks() {
    return ticks;
  }

  public MemoryFigures memory() {
    return memory;
  }

  /** For a person. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>(ticks.lines());
    lines.addAll(memory.lines(ticks.steps()));
    return lines;
  }
}
