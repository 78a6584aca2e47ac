package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.Consumer;

/**
 * A simulated control's contacts as level changes, without board and link: for thousands of
 * rehearsals. Edges get the width that half a cycle gives them, at random around the true moment.
 */
final class DirectCalls implements CallSource, Hands {
  /** A contact that is still for so long has stopped bouncing. */
  private static final long STILL_NANOS = 10_000_000;

  private final SimulatedControl control;
  private final List<Terminal> terminals;
  private final long widthMicros;
  private final SplittableRandom random;
  private final Level[] levels;
  private Consumer<LevelChange> sink = change -> {};
  private boolean power = true;
  private long nanos = 1_000_000_000;

  /**
   * @param widthMicros of an edge's interval, at most
   */
  DirectCalls(
      SimulatedControl control,
      List<Terminal> terminals,
      long widthMicros,
      SplittableRandom random) {
    this.control = control;
    this.terminals = terminals;
    this.widthMicros = widthMicros;
    this.random = random;
    levels = new Level[terminals.size()];
    Arrays.fill(levels, Level.OFF);
  }

  @Override
  public void perform(Deed deed) {
    control.operate(
        new Operation(
            deed.mode() == null ? null : Operation.Mode.valueOf(deed.mode().name()),
            deed.fan() == null ? null : Operation.Fan.valueOf(deed.fan().name()),
            deed.setKelvin(),
            deed.power()),
        nanos);
    power = deed.power() == null ? power : deed.power();
    tell(nanos, nanos);
  }

  @Override
  public void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> to) {
    sink = to;
    for (int lead = 0; lead < leads; lead++) {
      levels[lead] = closed(lead) ? Level.ON : Level.OFF;
      sink.accept(new LevelChange(lead, levels[lead], 0, 0));
    }
  }

  /** Whether there is something to see on a lead: without power a closed contact shows nothing. */
  private boolean closed(int lead) {
    return (power || control.setup().supplies().isEmpty())
        && control.closed(terminals.get(lead).name(), nanos);
  }

  @Override
  public void await(long micros) {
    long until = nanos + micros * 1000;
    while (true) {
      long next = control.nextChange(nanos);
      if (next > until) {
        break;
      }
      long first = next;
      nanos = next;
      for (next = control.nextChange(nanos);
          next - nanos < STILL_NANOS;
          next = control.nextChange(nanos)) {
        nanos = next;
      }
      tell(first, nanos);
    }
    nanos = Math.max(nanos, until);
  }

  private void tell(long firstNanos, long lastNanos) {
    for (int lead = 0; lead < levels.length; lead++) {
      Level now = closed(lead) ? Level.ON : Level.OFF;
      if (now != levels[lead]) {
        levels[lead] = now;
        long before = random.nextLong(widthMicros);
        long after = random.nextLong(widthMicros - before);
        sink.accept(
            new LevelChange(
                lead, now, firstNanos / 1000 - before, (lastNanos + 999) / 1000 + after));
      }
    }
  }

  @Override
  public long nowMicros() {
    return nanos / 1000;
  }

  @Override
  public long notBeyondMicros() {
    return nowMicros() + 1;
  }

  @Override
  public long settledMicros() {
    return nowMicros() - widthMicros;
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
  public void close() {}
}
