package bellwire.app.vigil;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilStore;
import bellwire.link.Message;

/** Words of the call-sense connector, and the calls in them. */
final class CallIntake implements Intake {
  static final String STREAM = "leads";
  static final long TICK_MICROS = 1000;

  /** Samples this far from where a run would have them begin another. */
  private static final long JITTER_MICROS = 250;

  private static final int LEADS = 16;

  private final VigilStore store;
  private final Stream stream;
  private final Tally tally;
  private final LevelTracker tracker;
  private final Level[] level = new Level[LEADS];
  private final long[] offMicros = new long[LEADS];
  private long runMicros = -1;
  private int runTicks;
  private int runWord;
  private long lastMicros = NEVER;

  /**
   * A step after a late one comes sooner than the stream has room for: it is put a little later.
   */
  private long leastMicros = NEVER;

  private long watchedMicros;

  CallIntake(VigilStore store, Stream stream, VigilOrder order, Tally tally) {
    this.store = store;
    this.stream = stream;
    this.tally = tally;
    java.util.Arrays.fill(level, Level.UNKNOWN);
    java.util.Arrays.fill(offMicros, -1);
    LevelTracker.Feed feed = order.wetting() ? LevelTracker.Feed.DRY : LevelTracker.Feed.AC;
    tracker = new LevelTracker(feed, order.ports(), this::changed);
  }

  @Override
  public void take(Message.Data message, long offsetMicros) throws JobFileException {
    if (!(message instanceof Message.CallSamples samples)) {
      return;
    }
    long at = samples.firstMicros() + offsetMicros;
    for (int i = 0; i < samples.word().length; i++) {
      at += samples.deltaMicros()[i];
      if (at > lastMicros) {
        sample(at, samples.tookMicros()[i], samples.word()[i]);
      }
    }
    flush();
  }

  private void sample(long at, int tookMicros, int word) throws JobFileException {
    tracker.sample(at, tookMicros, word);
    if (lastMicros != NEVER && at - lastMicros <= LevelTracker.LONGEST_PAUSE_MICROS) {
      watchedMicros += at - lastMicros;
    }
    long expected = runMicros + runTicks * TICK_MICROS;
    if (runTicks == 0 || word != runWord || Math.abs(at - expected) > JITTER_MICROS) {
      flush();
      runMicros = Math.max(at, leastMicros);
      runWord = word;
    }
    runTicks++;
    leastMicros = runMicros + (runTicks - 1) * TICK_MICROS + TICK_MICROS / 2;
    lastMicros = at;
  }

  private void flush() throws JobFileException {
    if (runTicks > 0) {
      store.appendTicks(stream, runMicros, runTicks, runWord, 0);
      runTicks = 0;
    }
  }

  /** A drop-out is told once the lead is back on. */
  private void changed(LevelChange change) {
    int lead = change.lead();
    if (change.level() == Level.UNKNOWN) {
      offMicros[lead] = -1;
    } else if (change.level() == Level.ON && offMicros[lead] >= 0) {
      long micros = change.earliestMicros() - offMicros[lead];
      tally.add(lead, offMicros[lead], micros, false);
      offMicros[lead] = -1;
    } else if (change.level() != Level.ON && level[lead] == Level.ON) {
      offMicros[lead] = change.latestMicros();
    }
    level[lead] = change.level();
  }

  @Override
  public void finish() throws JobFileException {
    flush();
  }

  @Override
  public long lastMicros() {
    return lastMicros;
  }

  @Override
  public long watchedMicros() {
    return watchedMicros;
  }

  @Override
  public String now(int at) {
    return switch (level[at]) {
      case ON -> "ON";
      case OFF -> "off";
      case WEAK -> "weak";
      case UNKNOWN -> "?";
    };
  }
}
