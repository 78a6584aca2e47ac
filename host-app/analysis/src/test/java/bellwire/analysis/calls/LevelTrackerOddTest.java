package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.LevelTracker.Feed;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What a call's AC may do besides coming and going. */
class LevelTrackerOddTest {
  private static final long SEED = 77;
  private final SplittableRandom random = new SplittableRandom(SEED);

  @BeforeAll
  static void printSeed() {
    System.out.println("seed=" + SEED);
  }

  private double hertz() {
    return (random.nextBoolean() ? 60 : 50) * (1 + 0.002 * (random.nextDouble() - 0.5));
  }

  private static boolean closed(List<Double> edges, double t) {
    return edges.stream().filter(e -> e <= t).count() % 2 == 1;
  }

  /** A relay that bounces for up to 4 ms: one edge each, with a closing or opening of it inside. */
  @Test
  void bounceLiesInsideItsEdge() {
    for (int run = 0; run < 300; run++) {
      Leads leads = new Leads(Feed.AC, 1, random.split());
      Leads.Wave supply =
          Leads.sine(18 + 12 * random.nextDouble(), hertz(), 6.3 * random.nextDouble());
      double on = leads.now() + 200_000 + random.nextInt(20_000);
      double off = on + 300_000 + random.nextInt(20_000);
      List<Double> edges = new ArrayList<>();
      for (double each : new double[] {on, off}) {
        double t = each;
        int toggles = 2 * random.nextInt(3) + 1;
        for (int i = 0; i < toggles; i++) {
          edges.add(t);
          t += random.nextDouble() * 1000;
        }
      }
      leads.wave(0, t -> closed(edges, t) ? supply.volts(t) : 0);
      leads.run(1_000_000);
      List<LevelChange> told = leads.told.get(0);
      assertThat(told)
          .as("run=%d %s", run, told)
          .extracting(LevelChange::level)
          .containsExactly(Level.OFF, Level.ON, Level.OFF);
      for (LevelChange change : told.subList(1, 3)) {
        boolean closing = change.level() == Level.ON;
        boolean there = false;
        for (int i = closing ? 0 : 1; i < edges.size(); i += 2) {
          double edge = edges.get(i);
          there |= edge >= change.earliestMicros() && edge <= change.latestMicros();
        }
        assertThat(there).as("run=%d %s in %s", run, change, edges).isTrue();
      }
    }
  }

  /** A semiconductor closes at any moment and opens at the current's zero crossing. */
  @Test
  void aSemiconductorOpensAtTheZeroCrossing() {
    for (int run = 0; run < 300; run++) {
      Leads leads = new Leads(Feed.AC, 1, random.split());
      double hertz = hertz();
      double half = 5e5 / hertz;
      Leads.Wave supply = Leads.sine(18 + 12 * random.nextDouble(), hertz, 0);
      double on = leads.now() + 200_000 + random.nextInt(20_000);
      double off = Math.ceil((on + 300_000) / half) * half;
      leads.wave(0, t -> t >= on && t < off ? supply.volts(t) : 0);
      leads.run(1_000_000);
      List<LevelChange> told = leads.told.get(0);
      assertThat(told).hasSize(3);
      assertThat(on)
          .isBetween((double) told.get(1).earliestMicros(), (double) told.get(1).latestMicros());
      assertThat(off)
          .isBetween((double) told.get(2).earliestMicros(), (double) told.get(2).latestMicros());
    }
  }

  /** Bits of 1 to 20 ms, telegrams and pauses: no contact and no mains. */
  @Test
  void aDataLineIsUnknown() {
    for (int run = 0; run < 200; run++) {
      Leads leads = new Leads(Feed.AC, 1, random.split());
      double bit = 1000 + 19_000 * random.nextDouble();
      long pattern = random.nextLong();
      boolean idleHigh = random.nextBoolean();
      leads.wave(
          0,
          t -> {
            long at = (long) (t / bit);
            boolean telegram = at / 40 % 2 == 0 || bit > 5000;
            boolean high = telegram ? new SplittableRandom(at ^ pattern).nextBoolean() : idleHigh;
            return high ? 24 : 0;
          });
      leads.run(4_000_000);
      List<LevelChange> told = leads.told.get(0);
      long on = 0;
      long since = told.isEmpty() ? leads.now() : told.get(0).earliestMicros();
      for (int i = 0; i < told.size(); i++) {
        long until = i + 1 < told.size() ? told.get(i + 1).earliestMicros() : leads.now();
        on += told.get(i).level() == Level.ON ? until - told.get(i).earliestMicros() : 0;
      }
      assertThat(told)
          .as("run=%d bit=%.0f", run, bit)
          .extracting(LevelChange::level)
          .contains(Level.UNKNOWN);
      assertThat(on)
          .as("run=%d bit=%.0f on for, of %d: %s", run, bit, leads.now() - since, told)
          .isLessThan(800_000);
    }
  }

  /** Chatter slower than the mains: each closing and opening is an edge of its own. */
  @Test
  void chatterIsToldEdgeByEdge() {
    int edges = 0;
    for (int run = 0; run < 100; run++) {
      Leads leads = new Leads(Feed.AC, 1, random.split());
      Leads.Wave supply =
          Leads.sine(18 + 12 * random.nextDouble(), hertz(), 6.3 * random.nextDouble());
      List<Double> moments = new ArrayList<>();
      double t = leads.now() + 200_000;
      for (int i = 0; i < 20; i++) {
        moments.add(t);
        t += 40_000 + random.nextDouble() * 160_000;
      }
      leads.wave(0, at -> closed(moments, at) ? supply.volts(at) : 0);
      leads.run(4_600_000);
      leads.finish();
      List<LevelChange> told = leads.told.get(0);
      assertThat(told).as("run=%d %s", run, told).hasSize(21);
      for (int i = 0; i < 20; i++) {
        LevelChange change = told.get(i + 1);
        assertThat(change.level()).isEqualTo(i % 2 == 0 ? Level.ON : Level.OFF);
        assertThat(moments.get(i))
            .isBetween((double) change.earliestMicros(), (double) change.latestMicros());
        edges++;
      }
    }
    assertThat(edges).isEqualTo(2000);
  }

  /**
   * Frames lost while a call is on, while it comes and while nothing is: unknown, then as it is.
   */
  @Test
  void lostSamplesAreUnknownAndThenSeenAnew() {
    for (int run = 0; run < 100; run++) {
      List<LevelChange> told = new ArrayList<>();
      LevelTracker tracker = new LevelTracker(Feed.AC, 0b11, told::add);
      Leads.Wave supply = Leads.sine(24, hertz(), 6.3 * random.nextDouble());
      long from = 1_000_000 + random.nextInt(400_000);
      long to = from + 30_000 + random.nextInt(500_000);
      for (long t = 500_000; t < 3_000_000; t += 1000) {
        if (t > from && t < to) {
          continue;
        }
        tracker.sample(t, 40, Math.abs(supply.volts(t)) > 9 ? t > 1_200_000 ? 3 : 1 : 0);
      }
      tracker.finish(3_000_000);
      for (int lead = 0; lead < 2; lead++) {
        int each = lead;
        List<LevelChange> mine = told.stream().filter(c -> c.lead() == each).toList();
        LevelChange last = mine.get(mine.size() - 1);
        if (lead == 0 || to > 1_200_000) {
          assertThat(mine)
              .as("run=%d %s", run, mine)
              .extracting(LevelChange::level)
              .contains(Level.UNKNOWN);
        }
        assertThat(last.level())
            .as("run=%d lead=%d from=%d to=%d %s", run, lead, from, to, mine)
            .isEqualTo(Level.ON);
        assertThat(tracker.level(lead)).isEqualTo(Level.ON);
        LevelChange unknown =
            mine.stream().filter(c -> c.level() == Level.UNKNOWN).findFirst().orElseThrow();
        assertThat(unknown.earliestMicros()).isLessThanOrEqualTo(from + 1000);
      }
    }
  }

  /**
   * A contact that opened as the samples were lost has not shown it by then: a zero may have been
   * any crossing's. Nor has one that closed.
   */
  @Test
  void anEdgeJustBeforeLostSamplesLiesInTheUnknown() {
    for (int run = 0; run < 400; run++) {
      List<LevelChange> told = new ArrayList<>();
      LevelTracker tracker = new LevelTracker(Feed.AC, 1, told::add);
      Leads.Wave supply = Leads.sine(24, hertz(), 6.3 * random.nextDouble());
      boolean opens = random.nextBoolean();
      long from = 1_500_000 + random.nextInt(20_000);
      double edge = from - random.nextInt(12_000);
      for (long t = 500_000; t < 3_000_000; t += t < from ? 1000 : t < 2_000_000 ? 600_000 : 1000) {
        boolean closed = opens == t < edge;
        tracker.sample(t, 40, closed && Math.abs(supply.volts(t)) > 9 ? 1 : 0);
      }
      tracker.finish(3_000_000);
      LevelChange next =
          told.stream()
              .filter(c -> c.level() != (opens ? Level.ON : Level.OFF))
              .findFirst()
              .orElseThrow();
      assertThat((double) next.earliestMicros())
          .as("run=%d opens=%s edge=%s from=%d %s", run, opens, edge, from, told)
          .isLessThanOrEqualTo(edge);
    }
  }

  /** The end comes while a call is coming: what is not clear is not told as a call. */
  @Test
  void whatTheEndLeavesOpenIsUnknown() {
    Leads leads = new Leads(Feed.AC, 1, random.split());
    Leads.Wave supply = Leads.sine(24, 60, 0);
    double on = leads.now() + 300_000;
    leads.wave(0, t -> t < on ? 0 : supply.volts(t));
    leads.run(340_000);
    leads.finish();
    assertThat(leads.told.get(0))
        .extracting(LevelChange::level)
        .containsExactly(Level.OFF, Level.UNKNOWN);
    assertThat((double) leads.told.get(0).get(1).earliestMicros()).isLessThanOrEqualTo(on);
  }

  /** A supply that sags by a third under other calls, and comes back, stays on. */
  @Test
  void aSaggingSupplyStaysOn() {
    for (int run = 0; run < 100; run++) {
      Leads leads = new Leads(Feed.AC, 1, random.split());
      Leads.Wave supply = Leads.sine(27, hertz(), 6.3 * random.nextDouble());
      leads.wave(0, t -> supply.volts(t) * ((long) t / 700_000 % 2 == 0 ? 1 : 0.67));
      leads.run(3_000_000);
      assertThat(leads.told.get(0)).as("run=%d", run).hasSize(1);
      assertThat(leads.tracker.level(0)).isEqualTo(Level.ON);
    }
  }
}
