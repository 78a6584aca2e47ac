package bellwire.analysis.calls;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Sixteen leads by their own definition, for tests: voltages of time, thresholds drawn within their
 * tolerance, a sampler that is late now and then.
 */
final class Leads {

  /** Volts of one lead, time in microseconds. */
  interface Wave {
    double volts(double micros);
  }

  final List<List<LevelChange>> told = new ArrayList<>();
  final List<LevelChange> all = new ArrayList<>();
  final LevelTracker tracker;
  final SplittableRandom random;
  private final double[] threshold = new double[16];
  private final Wave[] waves = new Wave[16];
  private final double delayMicros;
  private final int leads;
  private long due;
  private long lastSettled = Long.MIN_VALUE;

  /** Most of the lateness of a step; one in 500 is up to 2.5 ms late. */
  double jitterMicros = 60;

  Leads(Feed feed, int leads, SplittableRandom random) {
    this.random = random;
    this.leads = leads;
    CallInputs inputs = CallInputs.REVISION_A;
    delayMicros = random.nextDouble() * inputs.delayMicros();
    for (int i = 0; i < 16; i++) {
      told.add(new ArrayList<>());
      double ac = inputs.acVolts() + (2 * random.nextDouble() - 1) * inputs.acToleranceVolts();
      threshold[i] = feed == Feed.AC ? ac : 2.5;
      waves[i] = t -> 0;
    }
    tracker = new LevelTracker(feed, leads, this::take);
    due = random.nextLong(1000, 1_000_000);
  }

  private void take(LevelChange change) {
    if (change.earliestMicros() < lastSettled) {
      throw new AssertionError(change + " before settledMicros=" + lastSettled);
    }
    if (!all.isEmpty() && all.get(all.size() - 1).earliestMicros() > change.earliestMicros()) {
      throw new AssertionError(change + " out of order after " + all.get(all.size() - 1));
    }
    all.add(change);
    told.get(change.lead()).add(change);
  }

  long now() {
    return due;
  }

  void wave(int lead, Wave wave) {
    waves[lead] = wave;
  }

  /** Runs on; checks on the way that what is settled never falls. */
  void run(long micros) {
    long until = due + micros;
    while (due < until) {
      double late = random.nextDouble() * jitterMicros;
      if (random.nextInt(500) == 0) {
        late += random.nextDouble() * 2500;
      }
      long begin = due + (long) late;
      int took = 30 + random.nextInt(60);
      double read = begin + random.nextDouble() * took - delayMicros;
      int word = 0;
      for (int i = 0; i < 16; i++) {
        if ((leads >>> i & 1) != 0 && Math.abs(waves[i].volts(read)) > threshold[i]) {
          word |= 1 << i;
        }
      }
      tracker.sample(begin, took, word);
      if (random.nextInt(50) == 0) {
        settle();
      }
      while (due <= begin) {
        due += 1000;
      }
    }
  }

  void settle() {
    long settled = tracker.settledMicros();
    if (settled < lastSettled) {
      throw new AssertionError("settled fell: " + settled + " from " + lastSettled);
    }
    lastSettled = settled;
  }

  void finish() {
    tracker.finish(due);
  }

  static Wave sine(double volts, double hertz, double phase) {
    double peak = volts * Math.sqrt(2);
    return t -> peak * Math.sin(2e-6 * Math.PI * hertz * t + phase);
  }
}
