package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * One lead whose voltage turns into another: what is told of it, from when on, and by when. A
 * threshold of exactly 9 V, a sample each half millisecond that is read at once.
 */
class LevelTrackerTurnsTest {
  private static final int STEP = 500;
  private static final long SECOND = 1_000_000;

  /** So long after a turn at most it is told, LevelTracker; and a look more. */
  private static final long TOLD_WITHIN = 650_000;

  private static final int DELAY = CallInputs.REVISION_A.delayMicros();

  /** So often is asked what is settled. */
  private static final int ASKED = 10_000;

  private static final Leads.Wave NOTHING = t -> 0;
  private static final Leads.Wave DC = t -> 24;

  private final List<LevelChange> told = new ArrayList<>();
  private final LevelTracker tracker = new LevelTracker(Feed.AC, 1, told::add);
  private long now;

  private static Leads.Wave call(double hertz) {
    return Leads.sine(24, hertz, 1);
  }

  /** A 60 Hz sine that is above 9 V for this share of the time. */
  private static Leads.Wave ofShare(double share) {
    return Leads.sine(Conduction.peakVolts(9, share) / Math.sqrt(2), 60, 1);
  }

  /** A line that is at 24 V and at nought for so long in turn: no gap as long as a call's. */
  private static Leads.Wave square(long highMicros, long lowMicros) {
    return t -> t % (highMicros + lowMicros) < highMicros ? 24 : 0;
  }

  private void run(Leads.Wave wave, long micros) {
    for (long until = now + micros; now < until; now += STEP) {
      tracker.sample(now, 0, Math.abs(wave.volts(now)) > 9 ? 1 : 0);
      if (now % ASKED == 0) {
        assertThat(tracker.settledMicros()).isLessThanOrEqualTo(now - DELAY);
      }
    }
  }

  /** Told once more, in time, and of a level that was known before from the turn on. */
  private LevelChange turned(Level level, long micros, Leads.Wave wave) {
    boolean known = tracker.level(0) != Level.UNKNOWN && level != Level.UNKNOWN;
    int before = told.size();
    long from = now;
    while (told.size() == before && now < from + 2 * SECOND) {
      run(wave, STEP);
    }
    assertThat(told).as(told.toString()).hasSize(before + 1);
    LevelChange change = told.get(before);
    assertThat(change.level()).isEqualTo(level);
    if (known) {
      assertThat(micros)
          .as(change.toString())
          .isBetween(change.earliestMicros(), change.latestMicros());
    }
    assertThat(now).as(change.toString()).isLessThanOrEqualTo(micros + TOLD_WITHIN);
    assertThat(tracker.level(0)).isEqualTo(level);
    return change;
  }

  private void nothingMore(Leads.Wave wave, long micros) {
    int before = told.size();
    run(wave, micros);
    assertThat(told).as(told.toString()).hasSize(before);
  }

  @Test
  void aCallThatTurnsIntoSteadyVoltageIsNotKnownAnyMore() {
    run(call(60), SECOND);
    LevelChange unknown = turned(Level.UNKNOWN, now, DC);
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.STEADY_VOLTAGE);
    // Twelve gaps kept to the mains up to the turn: no more than they is taken back.
    assertThat(unknown.earliestMicros()).isGreaterThan(SECOND - 14 * 8_333);
    nothingMore(DC, 2 * SECOND);
    // What keeps to the mains is a call again.
    turned(Level.ON, now, call(60));
    nothingMore(call(60), SECOND);
  }

  @Test
  void aCallThatTurnsIntoADataLineIsNotKnownAnyMore() {
    run(call(50), SECOND);
    turned(Level.UNKNOWN, now, square(3_000, 2_000));
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.NOT_MAINS);
    nothingMore(square(3_000, 2_000), 2 * SECOND);
    // Silence for half a second is an open contact.
    long silent = now;
    turned(Level.OFF, now + 500_000, NOTHING);
    assertThat(now).isGreaterThan(silent + 500_000);
  }

  @Test
  void aLineThatIsOnlySteadyOrOnlyFastIsNeverACall() {
    run(NOTHING, 200_000);
    turned(Level.UNKNOWN, now, DC);
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.STEADY_VOLTAGE);
    turned(Level.OFF, now + 500_000, NOTHING);
    turned(Level.UNKNOWN, now, square(3_000, 2_000));
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.NOT_MAINS);
  }

  /** Pulses in every half period, then at any time: no leak is like that. */
  @Test
  void aWeakVoltageThatLosesItsStepIsNotKnownAnyMore() {
    run(NOTHING, 200_000);
    turned(Level.WEAK, now, ofShare(0.45));
    nothingMore(ofShare(0.45), SECOND);
    Leads.Wave pulses = t -> t % 37_000 % 11_000 < 3_000 ? 24 : 0;
    turned(Level.UNKNOWN, now, pulses);
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.NOT_MAINS);
  }

  @Test
  void aWeakVoltageThatGoesAwayIsOff() {
    run(NOTHING, 200_000);
    Leads.Wave leak = ofShare(0.45);
    turned(Level.WEAK, now, leak);
    nothingMore(leak, 800_000);
    long last = now;
    LevelChange off = turned(Level.OFF, now, NOTHING);
    // Since the last pulse, a half period before at most; the next one would have come in time.
    assertThat(off.earliestMicros()).isGreaterThan(last - 8_400);
    assertThat(off.latestMicros() - last).isLessThanOrEqualTo((long) (2.3 * 8_334) + STEP);
  }

  /** A leak that conducts as long as a call's gap lets it is one stretch, and weak all the same. */
  @Test
  void weakWithoutAPauseBecomesACallAndWeakAgain() {
    run(NOTHING, 200_000);
    turned(Level.WEAK, now, ofShare(0.63));
    assertThat(tracker.conductingShare(0).orElseThrow()).isCloseTo(0.63, within(0.03));
    assertThat(tracker.halfWave(0)).isFalse();
    nothingMore(ofShare(0.63), SECOND);
    turned(Level.ON, now, ofShare(0.8));
    assertThat(tracker.conductingShare(0).orElseThrow()).isCloseTo(0.8, within(0.03));
    nothingMore(ofShare(0.8), SECOND);
    turned(Level.WEAK, now, ofShare(0.63));
    nothingMore(ofShare(0.45), SECOND);
    assertThat(tracker.conductingShare(0)).as("pulses").isEmpty();
    turned(Level.ON, now, ofShare(0.8));
    nothingMore(ofShare(0.8), SECOND);
  }

  /** Below 0.66 weak, from 0.69 on again: between them a level stays what it is. */
  @Test
  void betweenTheLimitsALevelStays() {
    run(ofShare(0.76), SECOND);
    assertThat(tracker.level(0)).isEqualTo(Level.ON);
    nothingMore(ofShare(0.678), 3 * SECOND);
    turned(Level.WEAK, now, ofShare(0.62));
    nothingMore(ofShare(0.678), 3 * SECOND);
    turned(Level.ON, now, ofShare(0.72));
  }

  @Test
  void aHalfWaveIsSaidToBeOne() {
    run(NOTHING, 200_000);
    Leads.Wave whole = Leads.sine(24, 60, 1);
    Leads.Wave half = t -> Math.max(0, whole.volts(t));
    turned(Level.WEAK, now, half);
    assertThat(tracker.halfWave(0)).isTrue();
    assertThat(tracker.mainsHertz().orElseThrow()).isCloseTo(60, within(1.0)); // of six pulses
    nothingMore(half, SECOND);
    assertThat(tracker.halfWave(0)).isTrue();
    // Both halves, but weak: no half wave any more.
    nothingMore(ofShare(0.5), SECOND);
    assertThat(tracker.halfWave(0)).isFalse();
  }

  /** A generator that is started: the supply's frequency is another from one moment to the next. */
  @Test
  void anotherFrequencyIsTheSameCall() {
    run(call(50), 2 * SECOND);
    assertThat(tracker.mainsHertz().orElseThrow()).isCloseTo(50, within(0.1));
    nothingMore(call(61), 2 * SECOND);
    assertThat(tracker.mainsHertz().orElseThrow()).isCloseTo(61, within(0.12));
    assertThat(told).extracting(LevelChange::level).containsExactly(Level.ON);
  }

  /** A call that has just gone when samples are lost: what is told later knows nothing of it. */
  @Test
  void whatWasPendingWhenSamplesWereLostIsForgotten() {
    for (long gone : new long[] {6_000, 20_000, 36_000}) {
      told.clear();
      LevelTracker each = new LevelTracker(Feed.AC, 1, told::add);
      for (long t = 0; t < 3 * SECOND; t += STEP) {
        boolean open = t >= SECOND - gone && t < SECOND - gone / 2;
        boolean lost = t >= SECOND && t < SECOND + 60_000;
        if (!lost) {
          each.sample(t, 0, !open && Math.abs(call(60).volts(t)) > 9 ? 1 : 0);
        }
      }
      assertThat(told)
          .as("gone=%d %s", gone, told)
          .extracting(LevelChange::level)
          .containsExactly(Level.ON, Level.UNKNOWN, Level.ON);
      assertThat(told.get(1).earliestMicros()).isLessThanOrEqualTo(SECOND - gone);
      assertThat(told.get(2).earliestMicros()).isGreaterThanOrEqualTo(SECOND + 60_000 - STEP);
      assertThat(each.gaps()).isEqualTo(1);
    }
  }
}
