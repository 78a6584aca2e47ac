package bellwire.analysis.vigil;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TouchDecoderTest {
  private static final int CABLE = 0xFFFF;
  private static final long TICK = 1000;
  private static final long BLIND = 200;
  private static final long LATCH = 2;
  private static final EventLimits EACH = new EventLimits(1500, 0, 0);

  /** Conductors joined from one time to another. */
  private record Joined(int ports, long fromMicros, long toMicros) {}

  private final List<Touch> found = new ArrayList<>();

  /** What the board reads: tick i ends at i ms and looks from 0.2 ms after the one before. */
  private void play(int cable, int ticks, List<Joined> all, EventLimits limits) {
    found.clear();
    TouchDecoder decoder = new TouchDecoder(cable, limits, found::add);
    for (int i = 1; i <= ticks; i++) {
      int code = i % decoder.codes();
      int word = 0;
      int latched = 0;
      for (Joined each : all) {
        long overlap =
            Math.min(each.toMicros, i * TICK) - Math.max(each.fromMicros, (i - 1) * TICK + BLIND);
        int low = low(cable, each.ports, code);
        latched |= overlap >= LATCH ? low : 0;
        word |= each.fromMicros <= i * TICK - LATCH && each.toMicros > i * TICK ? low : 0;
      }
      decoder.accept(i * TICK, i * TICK, code, word, latched);
    }
    decoder.finish();
  }

  private static int low(int cable, int joined, int code) {
    int driven = 0;
    for (int port = 0, number = 1; port < 16; port++) {
      if ((cable >> port & 1) != 0) {
        driven |= (number++ >> code & 1) << port;
      }
    }
    return (joined & ~driven) == 0 ? 0 : joined & driven;
  }

  private static int pair(int a, int b) {
    return 1 << a | 1 << b;
  }

  @Test
  void everyPairThatTouchesForTwoRoundsIsDecided() {
    for (int a = 0; a <= 16; a++) {
      for (int b = 0; b < a; b++) {
        for (long from = 20_000; from < 25_000; from += 130) {
          long to = from + 10_000;
          play(CABLE, 60, List.of(new Joined(pair(a, b), from, to)), EACH);
          assertEquals(1, found.size(), () -> found.toString());
          Touch touch = found.get(0);
          assertTrue(touch.decided(), touch::toString);
          assertEquals(pair(a, b), touch.drivenPorts() | touch.possibleOthers(), touch::toString);
          assertFalse(touch.latched() || touch.cut());
          assertTrue(
              touch.beforeMicros() <= from
                  && touch.afterMicros() >= to
                  && touch.leastMicros() <= 10_000,
              touch::toString);
        }
      }
    }
  }

  @Test
  void aShorterOneLeavesASetThatHoldsTheTruth() {
    Random random = new Random(61);
    for (int i = 0; i < 20_000; i++) {
      int a = random.nextInt(17);
      int b = (a + 1 + random.nextInt(16)) % 17;
      long from = 20_000 + random.nextInt(5_000);
      long to = from + 2 + (long) Math.exp(random.nextDouble() * Math.log(20_000));
      play(CABLE, 60, List.of(new Joined(pair(a, b), from, to)), EACH);
      assertTrue(found.size() <= 1, () -> "seed 61: " + found);
      for (Touch touch : found) {
        String shown = "seed 61: " + pair(a, b) + " " + from + " " + to + " " + touch;
        assertEquals(0, touch.drivenPorts() & ~pair(a, b), shown);
        assertEquals(0, pair(a, b) & ~(touch.drivenPorts() | touch.possibleOthers()), shown);
        assertTrue(
            touch.beforeMicros() <= from + LATCH && touch.afterMicros() >= to - LATCH, shown);
        assertTrue(touch.leastMicros() <= to - from, shown);
      }
    }
  }

  @Test
  void aLatchedOneIsSeenAsOftenAsComputed() {
    Random random = new Random(62);
    TouchChance chance = new TouchChance(17, 1000, 200, 2);
    int seen = 0;
    double expected = 0;
    double variance = 0;
    for (int i = 0; i < 20_000; i++) {
      int a = random.nextInt(17);
      int b = (a + 1 + random.nextInt(16)) % 17;
      long from = 20_000 + random.nextInt(5_000);
      long length = 100 + random.nextInt(1_000);
      play(CABLE, 40, List.of(new Joined(pair(a, b), from, from + length)), EACH);
      seen += found.size();
      int first = a == 16 ? 0 : a + 1;
      int second = b == 16 ? 0 : b + 1;
      double p = chance.ofPair(first, second, length);
      expected += p;
      variance += p * (1 - p);
    }
    assertEquals(expected, seen, 4 * Math.sqrt(variance), "seed 62");
  }

  @Test
  void threeThatTouchAreOneTouch() {
    play(CABLE, 80, List.of(new Joined(0b01011, 20_300, 45_000)), EACH);
    assertEquals(1, found.size(), found::toString);
    assertEquals(0b01011, found.get(0).drivenPorts());
    assertTrue(found.get(0).decided());
  }

  @Test
  void aShortOneBesideALongOneIsCountedByItself() {
    play(
        CABLE,
        900,
        List.of(new Joined(pair(2, 16), 10_000, 800_000), new Joined(pair(7, 8), 400_000, 420_000)),
        EACH);
    assertEquals(2, found.size(), found::toString);
    assertEquals(pair(7, 8), found.get(0).drivenPorts() | found.get(0).possibleOthers());
    assertEquals(pair(2, 16), found.get(1).drivenPorts() | found.get(1).possibleOthers());
  }

  @Test
  void aCableWithGapsInItsPortsCountsItsOwnConductors() {
    int cable = 0b1010_0100_0001;
    for (int port : new int[] {0, 6, 9, 11, 16}) {
      int other = port == 6 ? 9 : 6;
      play(cable, 60, List.of(new Joined(pair(port, other), 20_000, 27_000)), EACH);
      assertEquals(1, found.size());
      assertEquals(pair(port, other), found.get(0).drivenPorts() | found.get(0).possibleOthers());
    }
  }

  @Test
  void aGapCutsATouch() {
    TouchDecoder decoder = new TouchDecoder(0b11, EACH, found::add);
    decoder.accept(1_000, 10_000, 0, 0, 0);
    decoder.accept(11_000, 11_000, 0, 0b01, 0b01);
    decoder.accept(50_000, 60_000, 1, 0, 0);
    decoder.finish();
    assertEquals(1, found.size());
    assertTrue(found.get(0).cutAfter());
    assertEquals(20_000, decoder.watchedMicros());
  }
}
