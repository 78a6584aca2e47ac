package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Dry contacts: every toggle that the samples show is a change, to a sample and its reading. */
class LevelTrackerDryTest {
  private static final int D = CallInputs.REVISION_A.delayMicros();

  private final List<LevelChange> told = new ArrayList<>();
  private final LevelTracker tracker = new LevelTracker(Feed.DRY, 0b101, told::add);

  @Test
  void anEdgeLiesFromOneReadingsBeginToTheNextOnesEnd() {
    tracker.sample(1000, 40, 0b000);
    tracker.sample(2000, 50, 0b000);
    tracker.sample(3300, 60, 0b110); // X2 is not watched
    tracker.sample(4000, 40, 0b011);
    assertThat(told)
        .containsExactly(
            new LevelChange(0, Level.OFF, 1000 - D, 1040),
            new LevelChange(2, Level.OFF, 1000 - D, 1040),
            new LevelChange(2, Level.ON, 2000 - D, 3360),
            new LevelChange(0, Level.ON, 3300 - D, 4040),
            new LevelChange(2, Level.OFF, 3300 - D, 4040));
    assertThat(tracker.settledMicros()).isEqualTo(4000 - D);
    assertThat(tracker.level(0)).isEqualTo(Level.ON);
    assertThat(tracker.level(2)).isEqualTo(Level.OFF);
    assertThat(tracker.mainsHertz()).isEmpty();
  }

  @Test
  void lostSamplesLeaveTheLevelsUnknown() {
    tracker.sample(1000, 40, 0b001);
    tracker.gap(1040, 90_000);
    tracker.sample(90_000, 40, 0b001);
    assertThat(told.subList(2, 6))
        .containsExactly(
            new LevelChange(0, Level.UNKNOWN, 1040, 1040),
            new LevelChange(2, Level.UNKNOWN, 1040, 1040),
            new LevelChange(0, Level.ON, 90_000, 90_040),
            new LevelChange(2, Level.OFF, 90_000, 90_040));
  }

  /** The agent hung for longer than any level may go unseen. */
  @Test
  void aLongPauseIsAGap() {
    tracker.sample(1000, 40, 0b001);
    tracker.sample(21_001, 40, 0b001);
    assertThat(told).hasSize(6);
    assertThat(told.get(2)).isEqualTo(new LevelChange(0, Level.UNKNOWN, 1000 - D, 1000 - D));
  }

  /** Else who sorts the changes would take the older one for the last. */
  @Test
  void afterLostSamplesNoChangeBeginsBeforeTheFirstOne() {
    tracker.sample(1000, 40, 0b001);
    tracker.sample(31_000, 40, 0b001);
    tracker.sample(32_000, 40, 0b000);
    tracker.sample(62_000, 40, 0b001);
    tracker.sample(92_000, 40, 0b001); // one sample alone between two pauses
    List<LevelChange> first = told.stream().filter(c -> c.lead() == 0).toList();
    assertThat(first)
        .extracting(LevelChange::level)
        .containsExactly(
            Level.ON,
            Level.UNKNOWN,
            Level.ON,
            Level.OFF,
            Level.UNKNOWN,
            Level.ON,
            Level.UNKNOWN,
            Level.ON);
    assertThat(first).isSortedAccordingTo(Comparator.comparingLong(LevelChange::earliestMicros));
    assertThat(first.get(3)).isEqualTo(new LevelChange(0, Level.OFF, 31_000, 32_040));
  }

  @Test
  void aWordOfNoKnownTimeIsPassedOver() {
    tracker.sample(1000, 40, 0b001);
    tracker.sample(2000, 65_535, 0b000);
    tracker.sample(3000, 40, 0b000);
    assertThat(told.get(2)).isEqualTo(new LevelChange(0, Level.OFF, 1000 - D, 3040));
  }

  @Test
  void timeRises() {
    tracker.sample(1000, 40, 0);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> tracker.sample(1000, 40, 0))
        .withMessageContaining("micros=1000");
    tracker.finish(1040);
    assertThatIllegalArgumentException().isThrownBy(() -> tracker.sample(2000, 40, 0));
  }

  /** Bounce of a relay: toggles of 0.1 to 4 ms. Those that a sample falls into are all told. */
  @Test
  void bounceIsKept() {
    long seed = 5;
    System.out.println("seed=" + seed);
    SplittableRandom random = new SplittableRandom(seed);
    int kept = 0;
    for (int run = 0; run < 300; run++) {
      Leads leads = new Leads(Feed.DRY, 1, random.split());
      List<Double> edges = new ArrayList<>();
      double t = leads.now() + 5000;
      int toggles = 2 * random.nextInt(4) + 1;
      for (int i = 0; i < toggles; i++) {
        edges.add(t);
        t += 100 + random.nextDouble() * 4000;
      }
      leads.wave(0, at -> edges.stream().filter(e -> e <= at).count() % 2 == 1 ? 5 : 0);
      leads.run(60_000);
      leads.settle();
      List<LevelChange> changes = leads.told.get(0);
      assertThat(changes.get(changes.size() - 1).level()).isEqualTo(Level.ON);
      for (LevelChange change : changes.subList(1, changes.size())) {
        boolean closing = change.level() == Level.ON;
        boolean there = false;
        for (int i = closing ? 0 : 1; i < edges.size(); i += 2) {
          double edge = edges.get(i);
          there |= edge >= change.earliestMicros() && edge <= change.latestMicros();
        }
        assertThat(there).as("run=%d %s in %s", run, change, edges).isTrue();
        kept++;
      }
    }
    assertThat(kept).isGreaterThan(600);
  }
}
