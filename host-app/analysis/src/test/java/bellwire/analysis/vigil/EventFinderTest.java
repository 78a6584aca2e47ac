package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class EventFinderTest {
  private static final long TICK = 1000;
  private static final long GAP = 3000;

  private final List<VigilEvent> events = new ArrayList<>();

  private EventFinder finder(long leastMicros, long rejoinMicros) {
    return new EventFinder(4, new EventLimits(GAP, leastMicros, rejoinMicros), events::add);
  }

  private static void read(EventFinder finder, long from, int... words) {
    for (int i = 0; i < words.length; i++) {
      finder.accept(from + i * TICK, from + i * TICK, words[i], 0);
    }
  }

  @Test
  void anOpeningIsBoundedByTheReadingsAroundIt() {
    EventFinder finder = finder(0, 0);
    read(finder, 5000, 0, 0b10, 0b10, 0b10, 0);
    finder.finish();
    assertThat(events)
        .containsExactly(new VigilEvent(1, 5000, 6000, 8000, 9000, 1, false, false, false));
    assertThat(events.get(0).leastMicros()).isEqualTo(2000);
    assertThat(events.get(0).mostMicros()).isEqualTo(4000);
    assertThat(finder.watchedMicros()).isEqualTo(4000);
  }

  @Test
  void aLatchAloneIsAnOpeningShorterThanATick() {
    EventFinder finder = finder(0, 0);
    read(finder, 0, 0, 0);
    finder.accept(2000, 2000, 0, 0b100);
    read(finder, 3000, 0);
    assertThat(events)
        .containsExactly(new VigilEvent(2, 1000, 2000, 2000, 2000, 1, true, false, false));
    assertThat(events.get(0).leastMicros()).isZero();
    assertThat(events.get(0).mostMicros()).isEqualTo(TICK);
  }

  @Test
  void theLatchesOfAnOpeningThatIsSeenAreNoFurtherOnes() {
    EventFinder finder = finder(0, 0);
    finder.accept(0, 0, 0, 0);
    finder.accept(1000, 1000, 1, 1);
    finder.accept(2000, 2000, 1, 1);
    finder.accept(3000, 3000, 0, 1);
    finder.accept(4000, 4000, 0, 0);
    assertThat(events)
        .containsExactly(new VigilEvent(0, 0, 1000, 2000, 3000, 1, false, false, false));
  }

  @Test
  void aRunOfEqualWordsIsAsGoodAsEveryReading() {
    EventFinder finder = finder(0, 0);
    finder.accept(0, 9000, 0, 0);
    finder.accept(10_000, 3_600_000_000L, 1, 0);
    finder.accept(3_600_001_000L, 3_600_002_000L, 0, 0);
    assertThat(events)
        .containsExactly(
            new VigilEvent(
                0, 9000, 10_000, 3_600_000_000L, 3_600_001_000L, 1, false, false, false));
  }

  @Test
  void whatFollowsSoonBelongsToTheSameEvent() {
    EventFinder finder = finder(0, 3000);
    read(finder, 0, 0, 1, 0, 0, 1, 0);
    finder.accept(6000, 6000, 0, 1);
    read(finder, 7000, 0, 0, 0, 0, 1, 0, 0, 0, 0);
    assertThat(events)
        .containsExactly(
            new VigilEvent(0, 0, 1000, 6000, 6000, 3, false, false, false),
            new VigilEvent(0, 10_000, 11_000, 11_000, 12_000, 1, false, false, false));
  }

  @Test
  void anEventIsToldOnceNothingCanJoinItAnyMore() {
    EventFinder finder = finder(0, 3000);
    read(finder, 0, 0, 1, 0, 0);
    assertThat(events).isEmpty();
    finder.accept(4000, 9000, 0, 0);
    assertThat(events).hasSize(1);
  }

  @Test
  void eventsAreCutWhereNothingIsKnown() {
    EventFinder finder = finder(50_000, 2000);
    read(finder, 0, 1, 1, 0b10, 0b10);
    // From 3 ms to 8 ms nothing; the latch tells of an opening somewhere in there.
    finder.accept(8000, 8000, 0b10, 0b110);
    read(finder, 9000, 0, 0, 0, 0b1010);
    finder.finish();
    events.sort(Comparator.comparingLong(VigilEvent::firstMicros).thenComparing(VigilEvent::port));
    assertThat(events)
        .containsExactly(
            new VigilEvent(0, 0, 0, 1000, 2000, 1, false, true, false),
            new VigilEvent(1, 1000, 2000, 3000, 3000, 1, false, false, true),
            new VigilEvent(1, 8000, 8000, 8000, 9000, 1, false, true, false),
            new VigilEvent(2, 8000, 8000, 8000, 8000, 1, true, true, false),
            new VigilEvent(1, 11_000, 12_000, 12_000, 12_000, 1, false, false, true),
            new VigilEvent(3, 11_000, 12_000, 12_000, 12_000, 1, false, false, true));
    assertThat(finder.watchedMicros()).isEqualTo(7000);
    assertThat(finder.dropped()).isZero();
  }

  @Test
  void onlyWhatCantHaveLastedLongEnoughIsDropped() {
    EventFinder finder = finder(3000, 0);
    read(finder, 0, 0, 1, 1, 0, 0b10, 0b10, 0b10, 0);
    finder.accept(8000, 8000, 0, 0b100);
    read(finder, 9000, 0);
    // Found open twice it lasted less than 3 ms, three times it may have been 3; a latch less than
    // 1.
    assertThat(events).extracting(VigilEvent::port).containsExactly(1);
    assertThat(finder.dropped()).isEqualTo(2);
  }

  @Test
  void aLateReadingWidensTheBoundsAndCutsNothing() {
    EventFinder finder = finder(0, 0);
    read(finder, 0, 0, 0);
    finder.accept(3400, 3400, 1, 0b11);
    finder.accept(4000, 4000, 1, 0);
    finder.accept(4000 + GAP, 4000 + GAP, 0, 0);
    assertThat(events)
        .containsExactlyInAnyOrder(
            new VigilEvent(1, 1000, 3400, 3400, 3400, 1, true, false, false),
            new VigilEvent(0, 1000, 3400, 4000, 7000, 1, false, false, false));
    assertThat(finder.watchedMicros()).isEqualTo(7000);
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    EventFinder finder = finder(0, 0);
    finder.accept(0, 5000, 0, 0);
    assertThatThrownBy(() -> finder.accept(5000, 6000, 0, 0))
        .hasMessageContaining("knownMicros=5000 firstMicros=5000");
    assertThatThrownBy(() -> finder.accept(6000, 6000, 0, 0b10000)).hasMessageContaining("word=16");
    assertThatThrownBy(() -> new EventLimits(0, 0, 0)).hasMessageContaining("gapMicros=0");
  }

  /**
   * A day's openings of sixteen conductors, sampled: each of 2 ms and more is found within its
   * bounds, each shorter one is seen or latched, none is invented.
   */
  @Test
  void everyDrawnOpeningIsFoundWithinItsBounds() {
    long seed = 31;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    for (int port = 0; port < 16; port++) {
      long[][] openings = openings(random, 400, 400_000_000L);
      events.clear();
      EventFinder finder = new EventFinder(16, new EventLimits(GAP, 0, 0), events::add);
      sample(finder, port, openings, 400_000_000L);
      assertThat(events).hasSameSizeAs(openings);
      for (int i = 0; i < openings.length; i++) {
        VigilEvent event = events.get(i);
        long begin = openings[i][0];
        long micros = openings[i][1] - begin;
        assertThat(event.firstMicros() - begin).isBetween(0L, TICK);
        assertThat(micros).isBetween(event.leastMicros(), event.mostMicros());
        assertThat(event.port()).isEqualTo(port);
        assertThat(event.times()).isEqualTo(1);
        assertThat(event.latched()).isEqualTo(begin / TICK == openings[i][1] / TICK);
      }
    }
  }

  /** Begin and end of each, from 20 us to 200 ms, no begin or end at a reading, at rest between. */
  private static long[][] openings(Random random, int count, long span) {
    long[][] openings = new long[count][];
    for (int i = 0; i < count; i++) {
      long begin = span / count * i + random.nextInt(500_000) / 10 * 10 + 5;
      long micros = (long) (20 * Math.pow(10, 4 * random.nextDouble())) / 10 * 10;
      openings[i] = new long[] {begin, begin + Math.max(20, micros)};
    }
    return openings;
  }

  /** What the readings are: the comparators' word, and the latches set since the one before. */
  private static void sample(EventFinder finder, int port, long[][] openings, long span) {
    int next = 0;
    long quietFrom = TICK;
    for (long[] each : openings) {
      long firstAfter = each[0] / TICK * TICK + TICK;
      finder.accept(quietFrom, firstAfter - TICK, 0, 0);
      long t = firstAfter;
      for (; t < each[1]; t += TICK) {
        finder.accept(t, t, 1 << port, 1 << port);
      }
      finder.accept(t, t, 0, 1 << port);
      quietFrom = t + TICK;
      next++;
    }
    finder.accept(quietFrom, span, 0, 0);
    assertThat(next).isEqualTo(openings.length);
  }

  /** A late reading opens anew after longer than events are joined over. */
  @Test
  void whatFollowsTooLateIsAnEventOfItsOwn() {
    for (long late : new long[] {4000, 4001}) {
      events.clear();
      EventFinder finder = finder(0, 3000);
      read(finder, 0, 0, 1, 0);
      finder.accept(late, late, 1, 0);
      read(finder, late + 1000, 0, 0, 0, 0, 0);
      assertThat(events)
          .as("late=" + late)
          .extracting(VigilEvent::times)
          .isEqualTo(late == 4000 ? List.of(2) : List.of(1, 1));
    }
  }

  @Test
  void portsAreOneToThirtyTwo() {
    EventLimits limits = new EventLimits(GAP, 0, 0);
    for (int ports : new int[] {0, 33}) {
      assertThatThrownBy(() -> new EventFinder(ports, limits, events::add))
          .hasMessage("ports=" + ports);
    }
    EventFinder all = new EventFinder(32, limits, events::add);
    all.accept(0, 0, 0, 0);
    all.accept(1000, 1000, -1, 0);
    all.accept(2000, 2000, 0, 0);
    assertThat(events).hasSize(32);
    assertThatThrownBy(() -> all.accept(4000, 3999, 0, 0)).hasMessageContaining("lastMicros=3999");
    assertThatThrownBy(() -> new EventFinder(1, limits, events::add).accept(0, 0, 0, 2))
        .hasMessageContaining("ports=1 word=2");
    assertThatThrownBy(() -> new EventLimits(1, -1, 0)).hasMessageContaining("leastMicros=-1");
    assertThatThrownBy(() -> new EventLimits(1, 0, -1)).hasMessageContaining("rejoinMicros=-1");
  }

  @Test
  void whichWentTogether() {
    int cable = 0b11111;
    List<VigilEvent> some =
        new ArrayList<>(
            List.of(
                at(3, 90_000),
                at(0, 1000),
                at(0, 20_000),
                at(1, 21_000),
                at(3, 40_000),
                at(0, 40_000),
                at(1, 41_000),
                at(4, 40_000)));
    some.add(at(2, 91_001));
    for (int port = 0; port < 5; port++) {
      some.add(at(port, 120_000));
    }
    assertThat(Together.of(some, cable, TICK))
        .containsExactly(
            new Together(1000, 0b1, Together.Kind.ONE, 0b1),
            new Together(20_000, 0b11, Together.Kind.SEVERAL, 0b11),
            new Together(40_000, 0b11011, Together.Kind.COMMON, 0b100),
            new Together(90_000, 0b1000, Together.Kind.ONE, 0b1000),
            new Together(91_001, 0b100, Together.Kind.ONE, 0b100),
            new Together(120_000, 0b11111, Together.Kind.ALL, 0b11111));
    // Of two conductors the one that shows and the one that is the way back can't be told apart.
    assertThat(Together.of(List.of(at(0, 7)), 0b11, TICK))
        .containsExactly(new Together(7, 0b1, Together.Kind.EITHER, 0b11));
    assertThatThrownBy(() -> Together.of(List.of(at(5, 7)), cable, TICK))
        .hasMessageContaining("ports=32");
  }

  private static VigilEvent at(int port, long micros) {
    return new VigilEvent(
        port, micros - TICK, micros, micros, micros + TICK, 1, false, false, false);
  }

  @Test
  void aChainOfEventsDoesNotGrowIntoOneGroup() {
    VigilEvent[] chain = new VigilEvent[4];
    Arrays.setAll(chain, i -> at(i, 1000L * i));
    assertThat(Together.of(List.of(chain), 0b111111, TICK))
        .extracting(Together::ports)
        .containsExactly(0b11, 0b1100);
  }
}
