package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.survey.InstrumentTrouble;
import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.PriorityQueue;
import java.util.function.Consumer;

/** Terminals whose levels a test sets, at once or after a delay; edges 2 ms wide. */
final class ScriptedCalls implements CallSource {
  private record Planned(long micros, int lead, Level level) {}

  private final Level[] levels;
  private final PriorityQueue<Planned> planned =
      new PriorityQueue<>((a, b) -> Long.compare(a.micros(), b.micros()));
  private Consumer<LevelChange> sink = change -> {};
  private long now = 1_000_000;
  private long failMicros = Long.MAX_VALUE;
  private long lagMicros = 2_000;
  private boolean closed;

  ScriptedCalls(Level... atFirst) {
    levels = atFirst.clone();
  }

  /** Sets a lead's level so long from now. */
  void set(int lead, Level level, long afterMicros) {
    planned.add(new Planned(now + afterMicros, lead, level));
  }

  /** Tells changes so late, as of AC it must. */
  void lag(long micros) {
    lagMicros = micros;
  }

  boolean closed() {
    return closed;
  }

  @Override
  public void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> to) {
    sink = to;
    for (int lead = 0; lead < levels.length; lead++) {
      sink.accept(new LevelChange(lead, levels[lead], 0, 0));
    }
  }

  /** Is lost so long from now. */
  void failAfter(long micros) {
    failMicros = now + micros;
  }

  @Override
  public void await(long micros) throws InstrumentTrouble {
    if (now >= failMicros) {
      throw new InstrumentTrouble("the link is gone");
    }
    now += micros;
    while (!planned.isEmpty() && planned.peek().micros() < now - lagMicros) {
      Planned next = planned.remove();
      levels[next.lead()] = next.level();
      sink.accept(
          new LevelChange(next.lead(), next.level(), next.micros() - 1_000, next.micros() + 1_000));
    }
  }

  @Override
  public long nowMicros() {
    return now;
  }

  @Override
  public long notBeyondMicros() {
    return now + 1;
  }

  @Override
  public long settledMicros() {
    return now - lagMicros;
  }

  @Override
  public Level level(int lead) {
    return levels[lead];
  }

  @Override
  public OptionalDouble mainsHertz() {
    return OptionalDouble.empty();
  }

  @Override
  public Sampling sampling() {
    return new Sampling(0, 0, 0, 0);
  }

  @Override
  public void close() {
    closed = true;
  }

  @Override
  public String toString() {
    return Arrays.toString(levels);
  }
}
