package bellwire.app.rehearsal;

import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.rules.Truth;
import bellwire.app.rehearsal.Facts.InForce;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** What was seen and done in a rehearsal, bounded. */
final class History {
  /** More changes than any control in order makes; what comes beyond is counted. */
  static final int MOST = 200_000;

  /** Something that changes facts. */
  interface Event {
    long earliestMicros();

    long latestMicros();

    Map<Integer, Truth> changes(Facts facts);
  }

  private record Seen(LevelChange change) implements Event {
    @Override
    public long earliestMicros() {
      return change.earliestMicros();
    }

    @Override
    public long latestMicros() {
      return change.latestMicros();
    }

    @Override
    public Map<Integer, Truth> changes(Facts facts) {
      return facts.level(change);
    }
  }

  /** The steps change something at a moment that is known. */
  private record Turn(long micros, Function<Facts, Map<Integer, Truth>> what) implements Event {
    @Override
    public long earliestMicros() {
      return micros;
    }

    @Override
    public long latestMicros() {
      return micros;
    }

    @Override
    public Map<Integer, Truth> changes(Facts facts) {
      return what.apply(facts);
    }
  }

  private final List<LevelChange> levels = new ArrayList<>();
  private final List<Turn> turns = new ArrayList<>();

  /** The step begun last, and those skipped since, of which the operator may have done some. */
  private final List<InForce> possible = new ArrayList<>();

  private long lastEarliestMicros;
  private int turnsBeforeLast;
  private long dropped;
  private long wholeUntilMicros = Long.MAX_VALUE;

  void add(LevelChange change) {
    if (levels.size() < MOST) {
      levels.add(change);
    } else {
      wholeUntilMicros = Math.min(wholeUntilMicros, change.earliestMicros());
      dropped++;
    }
  }

  /** A step begins between two moments, in which only what it has in common with the last holds. */
  void step(Step step, boolean power, long earliestMicros, long latestMicros) {
    turnsBeforeLast = turns.size();
    if (latestMicros > earliestMicros) {
      maybe(new InForce(step, power), earliestMicros);
    }
    turns.add(new Turn(latestMicros, facts -> facts.step(step, power)));
    lastEarliestMicros = earliestMicros;
    possible.clear();
    possible.add(new InForce(step, power));
  }

  /** A step was skipped; whether the operator had done what it says by then is not known. */
  void skipped(Step step, boolean power, long earliestMicros) {
    maybe(new InForce(step, power), earliestMicros);
  }

  private void maybe(InForce next, long micros) {
    if (!possible.isEmpty()) {
      possible.add(next);
      List<InForce> any = List.copyOf(possible);
      turns.add(new Turn(micros, facts -> facts.between(any)));
    }
  }

  /** The attempt begun last does not count: no step was in force in it. */
  void setAside() {
    turns.subList(turnsBeforeLast, turns.size()).clear();
    turns.add(new Turn(lastEarliestMicros, Facts::noStep));
    possible.clear();
  }

  List<LevelChange> changes() {
    return List.copyOf(levels);
  }

  /** Changes that were too many to keep. */
  long dropped() {
    return dropped;
  }

  /** From here on changes were dropped, and nothing can be judged. */
  long wholeUntilMicros() {
    return wholeUntilMicros;
  }

  /**
   * All events up to the end by their earliest moment. The trace begins when the terminals' levels
   * are known: what was told of them before is how it begins.
   */
  List<Event> inOrder(long startMicros, long endMicros) {
    List<Event> events = new ArrayList<>();
    events.add(new Turn(startMicros, Facts::noStep));
    events.addAll(turns);
    for (LevelChange change : levels) {
      events.add(
          new Seen(
              new LevelChange(
                  change.lead(),
                  change.level(),
                  Math.max(startMicros, change.earliestMicros()),
                  Math.max(startMicros, change.latestMicros()))));
    }
    events.sort(Comparator.comparingLong(Event::earliestMicros));
    events.removeIf(event -> event.earliestMicros() > endMicros);
    events.add(new Turn(endMicros, Facts::noStep));
    return events;
  }
}
