package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;

final class BounceFilterTest {
  private final List<LevelChange> told = new ArrayList<>();
  private final BounceFilter filter = new BounceFilter(20_000, told::add);

  private void change(Level level, long earliest, long latest) {
    filter.accept(new LevelChange(3, level, earliest, latest));
  }

  @Test
  void bouncesBecomeOneChangeAsWideAsTheyAre() {
    change(Level.OFF, 0, 0);
    change(Level.ON, 100_000, 101_000);
    change(Level.OFF, 101_000, 102_000);
    change(Level.ON, 102_000, 103_000);
    assertEquals(100_000, filter.settle(110_000));
    assertEquals(123_001, filter.settle(123_001));
    assertEquals(
        List.of(
            new LevelChange(3, Level.OFF, 0, 0), new LevelChange(3, Level.ON, 100_000, 103_000)),
        told);
    assertEquals(2, filter.bounces());
  }

  @Test
  void aSpikeLeavesNoChangeButIsCounted() {
    change(Level.OFF, 0, 0);
    change(Level.ON, 100_000, 101_000);
    change(Level.OFF, 103_000, 104_000);
    filter.finish();
    assertEquals(List.of(new LevelChange(3, Level.OFF, 0, 0)), told);
    assertEquals(1, filter.spikes());
  }

  @Test
  void chatterSlowerThanTheBounceTimeStays() {
    change(Level.OFF, 0, 0);
    for (int i = 0; i < 5; i++) {
      change(i % 2 == 0 ? Level.ON : Level.OFF, 100_000 + 50_000 * i, 101_000 + 50_000 * i);
    }
    filter.finish();
    assertEquals(6, told.size());
    assertEquals(0, filter.bounces());
  }

  /** A relay that buzzes for a second is no bounce, though its changes follow fast. */
  @Test
  void whatGoesOnForLongerThanTheBounceTimeStays() {
    for (int every : new int[] {1, 2, 3, 7, 10, 19}) {
      BounceFilter filter = new BounceFilter(20_000, told::add);
      told.clear();
      filter.accept(new LevelChange(3, Level.OFF, 0, 0));
      for (int i = 0; i < 1000; i++) {
        long at = 1000L * (100 + every * i);
        filter.accept(new LevelChange(3, i % 2 == 0 ? Level.ON : Level.OFF, at, at + 1000));
      }
      filter.finish();
      assertThat(told.stream().filter(c -> c.level() == Level.ON).count())
          .isGreaterThan(every * 1000 / 65);
      assertThat(told.get(told.size() - 1).level()).isEqualTo(Level.OFF);
      assertThat(told).allMatch(c -> c.latestMicros() - c.earliestMicros() <= 22_000);
      assertThat(told).isSortedAccordingTo(Comparator.comparingLong(LevelChange::earliestMicros));
    }
  }

  @Test
  void notKnownIsToldAtOnceAndMergedWithNothing() {
    change(Level.OFF, 0, 0);
    change(Level.ON, 100_000, 101_000);
    change(Level.UNKNOWN, 105_000, 105_000);
    change(Level.ON, 110_000, 110_000);
    assertEquals(
        List.of(Level.OFF, Level.ON, Level.UNKNOWN, Level.ON),
        told.stream().map(LevelChange::level).toList());
  }

  /** Changes a bounce time apart are one; what lasts a microsecond longer is a pulse of its own. */
  @Test
  void theBounceTimeItselfIsIncluded() {
    for (int apart : new int[] {20_000, 20_001}) {
      told.clear();
      BounceFilter each = new BounceFilter(20_000, told::add);
      each.accept(new LevelChange(3, Level.OFF, 0, 0));
      assertThat(told).as("what is seen first is told at once").hasSize(1);
      each.accept(new LevelChange(3, Level.ON, 100_000, 100_000));
      each.accept(new LevelChange(3, Level.OFF, 100_000 + apart, 100_000 + apart));
      each.finish();
      assertThat(each.bounces()).as("apart=" + apart).isEqualTo(apart == 20_000 ? 1 : 0);
      assertThat(told).as("apart=" + apart).hasSize(apart == 20_000 ? 1 : 3);
    }
  }

  /** The first of a chain counts as well as the one before: three, 12 ms apart, are too long. */
  @Test
  void aChainOfBouncesEndsWithItsBounceTime() {
    change(Level.OFF, 0, 0);
    change(Level.ON, 100_000, 100_000);
    change(Level.OFF, 110_000, 110_000);
    change(Level.ON, 120_000, 120_000);
    filter.finish();
    assertEquals(new LevelChange(3, Level.ON, 100_000, 120_000), told.get(1));
    change(Level.OFF, 200_000, 200_000);
    change(Level.ON, 212_000, 212_000);
    change(Level.OFF, 224_000, 224_000);
    filter.finish();
    assertThat(told).hasSize(5);
    assertThat(filter.spikes()).isZero();
  }
}
