package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** When the tracker tells, what is settled by then, and what it refuses. */
class LevelTrackerTimesTest {
  private static final int STEP = 500;
  private static final int DELAY = CallInputs.REVISION_A.delayMicros();
  private static final double HALF = 1e6 / 120;
  private static final Leads.Wave CALL = Leads.sine(24, 60, 0);

  private final List<LevelChange> told = new ArrayList<>();
  private final LevelTracker tracker = new LevelTracker(Feed.AC, 1, told::add);

  private static int bit(long micros) {
    return Math.abs(CALL.volts(micros)) > 9 ? 1 : 0;
  }

  private void call(long from, long to) {
    for (long t = from; t < to; t += STEP) {
      tracker.sample(t, 0, bit(t));
    }
  }

  private void nothing(long from, long to) {
    for (long t = from; t < to; t += STEP) {
      tracker.sample(t, 0, 0);
    }
  }

  @Test
  void whatIsDueIsToldWithoutBeingAskedFor() {
    nothing(0, 200_000);
    assertThat(told).containsExactly(new LevelChange(0, Level.OFF, -DELAY, 5_000));
    call(200_000, 320_000);
    assertThat(told).as("a call, some 100 ms after it").hasSize(2);
    call(320_000, 600_000);
    nothing(600_000, 630_000);
    assertThat(told).extracting(LevelChange::level).containsExactly(Level.OFF, Level.ON, Level.OFF);
  }

  /** A leak's pulse may be missing for 2.3 half periods, of 45 Hz while no others are known. */
  @Test
  void whatIsSettledOfAnOpenContactLeavesRoomForALeak() {
    assertThat(tracker.settledMicros()).isEqualTo(Long.MIN_VALUE);
    nothing(0, 5_000);
    assertThat(tracker.settledMicros()).isEqualTo(-DELAY);
    nothing(5_000, 200_500);
    assertThat(tracker.settledMicros()).isEqualTo(200_000 - DELAY - (long) (2.3e6 / 90));
    call(200_500, 1_000_000);
    // Twelve gaps, a look each 100 ms.
    assertThat(999_500 - tracker.settledMicros()).isBetween((long) DELAY, 12 * 8_334L + 100_000);
    nothing(1_000_000, 1_200_500);
    assertThat(tracker.settledMicros()).isBetween(1_200_000 - 20_000L, 1_200_000 - 19_000L);
    tracker.gap(1_200_500, 1_300_000);
    assertThat(tracker.settledMicros()).isEqualTo(1_300_000);
    tracker.finish(1_400_000);
    assertThat(tracker.settledMicros()).isEqualTo(1_400_000);
  }

  /** Samples at the zero crossings alone, too far apart to say that nothing is between them. */
  @Test
  void samplesFarApartOpenNoContact() {
    call(0, 1_000_000);
    long last = 0;
    for (int k = 121; k < 133; k++) {
      last = Math.round(k * HALF);
      assertThat(bit(last)).isZero();
      tracker.sample(last, 0, 0);
    }
    call(last + STEP, 2_000_000);
    tracker.settledMicros();
    assertThat(told).extracting(LevelChange::level).containsExactly(Level.ON);
  }

  /** The same while nothing was told yet, and beside another lead that changes. */
  @Test
  void samplesFarApartOpenNoneBesideOneThatChanges() {
    LevelTracker two = new LevelTracker(Feed.AC, 3, told::add);
    for (long t = 0; t < 1_000_000; t += STEP) {
      two.sample(t, 0, 3 * bit(t));
    }
    for (int k = 121; k < 133; k++) {
      two.sample(Math.round(k * HALF), 0, k % 2 == 0 ? 2 : 0);
    }
    for (long t = Math.round(132 * HALF) + STEP; t < 2_000_000; t += STEP) {
      two.sample(t, 0, 3 * bit(t));
    }
    two.settledMicros();
    assertThat(told.stream().filter(c -> c.lead() == 0))
        .extracting(LevelChange::level)
        .containsExactly(Level.ON);
  }

  @Test
  void theEndTakesBackNothingThatIsKnown() {
    call(0, 500_000);
    tracker.finish(500_000);
    assertThat(told).extracting(LevelChange::level).containsExactly(Level.ON);
    assertThat(tracker.level(0)).isEqualTo(Level.ON);
    told.clear();
    LevelTracker off = new LevelTracker(Feed.AC, 1, told::add);
    for (long t = 0; t < 500_000; t += STEP) {
      off.sample(t, 0, 0);
    }
    off.finish(500_000);
    assertThat(told).extracting(LevelChange::level).containsExactly(Level.OFF);
  }

  @Test
  void threeMillisecondsSayNothing() {
    nothing(0, 3_000);
    assertThat(tracker.level(0)).isEqualTo(Level.UNKNOWN);
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.UNDECIDED);
    tracker.finish(3_000);
    assertThat(told).containsExactly(new LevelChange(0, Level.UNKNOWN, -DELAY, -DELAY));
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.UNDECIDED);
  }

  @Test
  void lostSamplesAreCountedAndSaid() {
    call(0, 500_000);
    tracker.gap(500_000, 500_000);
    tracker.gap(500_000, 600_000); // nothing was seen between
    assertThat(tracker.gaps()).isEqualTo(1);
    assertThat(tracker.level(0)).isEqualTo(Level.UNKNOWN);
    assertThat(tracker.doubt(0)).isEqualTo(Doubt.SAMPLES_LOST);
    call(600_000, 1_000_000);
    assertThat(tracker.level(0)).isEqualTo(Level.ON);
    assertThat(told.get(2).earliestMicros()).isEqualTo(600_000);
    tracker.sample(2_000_000, 0, 0);
    assertThat(tracker.gaps()).isEqualTo(2);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> tracker.gap(5, 4))
        .withMessage("fromMicros=5 toMicros=4");
  }

  @Test
  void ofDryContactsToo() {
    LevelTracker dry = new LevelTracker(Feed.DRY, 1, told::add);
    dry.sample(0, 40, 1);
    assertThat(dry.doubt(0)).isEqualTo(Doubt.UNDECIDED);
    assertThat(dry.settledMicros()).isEqualTo(-DELAY);
    dry.gap(40, 50_000);
    assertThat(dry.doubt(0)).isEqualTo(Doubt.SAMPLES_LOST);
    assertThat(dry.settledMicros()).isEqualTo(50_000);
    assertThat(dry.gaps()).isEqualTo(1);
    assertThat(dry.conductingShare(0)).isEmpty();
    dry.finish(60_000);
    assertThat(dry.settledMicros()).isEqualTo(60_000);
    assertThat(told).hasSize(2);
  }

  /** Of readings that end no more than 20 ms after the one before began nothing is lost. */
  @Test
  void aPauseOf20MillisecondsIsNoGap() {
    LevelTracker dry = new LevelTracker(Feed.DRY, 1, told::add);
    dry.sample(0, 40, 1);
    dry.sample(19_960, 40, 1);
    assertThat(dry.gaps()).isZero();
    dry.sample(39_921, 40, 1);
    assertThat(dry.gaps()).isEqualTo(1);
  }

  @Test
  void whatCannotBeIsRefused() {
    for (int leads : new int[] {-1, 0x10000}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new LevelTracker(Feed.AC, leads, told::add))
          .withMessage("leads=" + leads);
    }
    LevelTracker none = new LevelTracker(Feed.AC, 0, told::add);
    none.sample(0, 0, 0xFFFF);
    new LevelTracker(Feed.AC, 0xFFFF, told::add).sample(-5, 0, 0);
    assertThat(told).isEmpty();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> none.sample(1_000, -1, 0))
        .withMessageContaining("tookMicros=-1");
    for (int lead : new int[] {-1, 16}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new LevelChange(lead, Level.ON, 3, 4))
          .withMessageContaining("lead=" + lead);
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new LevelChange(0, Level.ON, 5, 4))
        .withMessageContaining("earliestMicros=5 latestMicros=4");
  }

  @Test
  void inputsThatNoBoardHasAreRefused() {
    new CallInputs(9, 0, 0);
    new CallInputs(9, 8.9, 1_000);
    for (CallInputsOf bad :
        List.<CallInputsOf>of(
            () -> new CallInputs(0, 0, 0),
            () -> new CallInputs(Double.NaN, 0, 0),
            () -> new CallInputs(9, -0.1, 0),
            () -> new CallInputs(9, 9, 0),
            () -> new CallInputs(9, 0.6, -1),
            () -> new CallInputs(9, 0.6, 1_001))) {
      assertThatIllegalArgumentException()
          .isThrownBy(bad::make)
          .withMessageContaining("delayMicros=");
    }
  }

  private interface CallInputsOf {
    CallInputs make();
  }
}
