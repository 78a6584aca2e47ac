package bellwire.analysis.calls;

import java.util.Arrays;
import java.util.function.Consumer;

/**
 * Takes a contact's bounces for what they are: changes of one lead that follow each other within
 * the bounce time become one change, whose interval reaches from the first to the last of them; a
 * spike that leads back to where it came from becomes none, and is counted. What goes on changing
 * for longer is no bounce, and leaves a change each bounce time at least. Not known is passed on at
 * once.
 */
public final class BounceFilter {
  private static final int LEADS = 16;

  private final long bounceMicros;
  private final Consumer<LevelChange> sink;
  private final Level[] told = new Level[LEADS];
  private final LevelChange[] first = new LevelChange[LEADS];
  private final LevelChange[] held = new LevelChange[LEADS];
  private final boolean[] holding = new boolean[LEADS];
  private long bounces;
  private long spikes;

  /**
   * @param bounceMicros changes closer than this are one
   * @param sink told changes in order of the earliest moment for each lead
   */
  public BounceFilter(long bounceMicros, Consumer<LevelChange> sink) {
    this.bounceMicros = bounceMicros;
    this.sink = sink;
    Arrays.fill(told, Level.UNKNOWN);
  }

  /** Changes of a lead in order of time. */
  public void accept(LevelChange change) {
    int lead = change.lead();
    boolean known = change.level() != Level.UNKNOWN && told[lead] != Level.UNKNOWN;
    if (holding[lead]) {
      LevelChange before = held[lead];
      boolean soon = known && change.earliestMicros() - before.latestMicros() <= bounceMicros;
      if (soon && change.earliestMicros() - first[lead].latestMicros() <= bounceMicros) {
        bounces++;
        held[lead] = change;
        return;
      }
      release(lead, soon);
    }
    if (known) {
      first[lead] = change;
      held[lead] = change;
      holding[lead] = true;
    } else {
      told[lead] = change.level();
      sink.accept(change);
    }
  }

  /**
   * Nothing before this time comes any more: what can't grow is passed on.
   *
   * @return a time before which nothing will be passed on any more
   */
  public long settle(long micros) {
    long settled = micros;
    for (int lead = 0; lead < LEADS; lead++) {
      if (holding[lead] && micros - held[lead].latestMicros() > bounceMicros) {
        release(lead, false);
      }
      if (holding[lead]) {
        settled = Math.min(settled, first[lead].earliestMicros());
      }
    }
    return settled;
  }

  /** Passes on what is held. */
  public void finish() {
    for (int lead = 0; lead < LEADS; lead++) {
      if (holding[lead]) {
        release(lead, false);
      }
    }
  }

  /** Changes that were taken into another. */
  public long bounces() {
    return bounces;
  }

  /** Pulses shorter than the bounce time that led back to where they came from. */
  public long spikes() {
    return spikes;
  }

  private void release(int lead, boolean goesOn) {
    LevelChange begin = first[lead];
    LevelChange end = held[lead];
    holding[lead] = false;
    if (end.level() != told[lead]) {
      told[lead] = end.level();
      long latest = Math.max(begin.latestMicros(), end.latestMicros());
      sink.accept(new LevelChange(lead, end.level(), begin.earliestMicros(), latest));
    } else if (goesOn) {
      sink.accept(begin);
      sink.accept(end);
    } else {
      spikes++;
    }
  }
}
