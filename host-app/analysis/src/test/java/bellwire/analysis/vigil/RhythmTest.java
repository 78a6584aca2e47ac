package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/** Bursts and periods. */
class RhythmTest {
  private static final long HOUR = 3_600_000_000L;

  private static Random random(long seed) {
    System.out.println("seed=" + seed);
    return new Random(seed);
  }

  private static long[] atRandom(Random random, int events, long span) {
    return random.longs(events, 0, span).sorted().toArray();
  }

  /** Bortkiewicz 1898; mean as published, variance computed. */
  @Test
  void deathsByHorseKicksAreAtRandom() {
    double[] frequency =
        ReferenceTables.load("event-rates/horse-kicks").only().numbers("frequency");
    double[] counts = new double[(int) Arrays.stream(frequency).sum()];
    int next = 0;
    for (int i = 0; i < frequency.length; i++) {
      Arrays.fill(counts, next, next += (int) frequency[i], i);
    }
    Burstiness.Dispersion found = Burstiness.ofCounts(counts);
    Row said = ReferenceTables.load("event-rates/horse-kicks-dispersion").only();
    assertThat(found.fano()).isCloseTo(said.number("fano"), within(5.1e-8));
    assertThat(found.chance()).isBetween(0.3, 0.7);
  }

  @Test
  void aClockChanceAndBurstsAreToldApart() {
    long[] clock = LongStream.range(0, 100).map(i -> i * HOUR / 100).toArray();
    assertThat(Burstiness.gapVariation(clock)).isZero();
    assertThat(Burstiness.dispersion(clock, 0, HOUR, 20).fano()).isZero();
    Random random = random(5);
    long[] poisson = atRandom(random, 1000, HOUR);
    // u of the coefficient of variation of n exponential gaps is 1/sqrt(n).
    assertThat(Burstiness.gapVariation(poisson)).isCloseTo(1, within(4 / Math.sqrt(1000)));
    long[] bursts = new long[1000];
    for (int i = 0; i < 1000; i += 10) {
      long begin = (long) (random.nextDouble() * (HOUR - 1_000_000));
      for (int j = 0; j < 10; j++) {
        bursts[i + j] = begin + random.nextInt(1_000_000);
      }
    }
    Arrays.sort(bursts);
    // Ten at a time: gaps vary with sqrt(2 · 10 - 1), counts with 10.
    assertThat(Burstiness.gapVariation(bursts)).isBetween(3.4, 5.5);
    Burstiness.Dispersion dispersion = Burstiness.dispersion(bursts, 0, HOUR, 60);
    assertThat(dispersion.fano()).isBetween(5.0, 16.0);
    assertThat(dispersion.chance()).isLessThan(1e-6);
  }

  @Test
  void burstsAreClaimedOfChanceAsOftenAsItSays() {
    Random random = random(6);
    int runs = 2000;
    int claimed = 0;
    for (int i = 0; i < runs; i++) {
      long[] times = atRandom(random, 120, HOUR);
      claimed += Burstiness.dispersion(times, 0, HOUR, 24).chance() < 0.1 ? 1 : 0;
    }
    assertThat((double) claimed).isCloseTo(0.1 * runs, within(4 * Math.sqrt(0.09 * runs)));
  }

  @Test
  void rayleighsTestAsPublished() {
    for (Row row : ReferenceTables.load("event-rates/rayleigh").rows()) {
      assertThat(row.status().decides()).isTrue();
      double[] radians = row.numbers("radians");
      double cos = Arrays.stream(radians).map(Math::cos).average().orElseThrow();
      double sin = Arrays.stream(radians).map(Math::sin).average().orElseThrow();
      assertThat(Period.chance(radians.length, Math.hypot(cos, sin)))
          .isCloseTo(row.number("chance"), within(2 * row.lastPlace("chance")));
    }
  }

  /** Quantiles of 4,000,000 simulated draws each, as numpy gave them; the series gave 0 at some. */
  @Test
  void fewThatPointAlmostTheSameWayAreNotImpossible() {
    double[][] seen = {
      {5, 0.963, 1e-3},
      {7, 0.946, 1e-4},
      {7, 0.975, 1e-5},
      {10, 0.858, 1e-4},
      {10, 0.913, 1e-5},
      {10, 0.931, 3e-6},
      {15, 0.802, 1e-5},
      {15, 0.842, 3e-6}
    };
    for (double[] row : seen) {
      assertThat(Period.chance((int) row[0], row[1]))
          .as("n=" + row[0] + " resultant=" + row[1])
          .isBetween(0.7 * row[2], 20 * row[2]);
    }
  }

  @Test
  void aCompressorsCycleIsFoundAmongRandomEvents() {
    Random random = random(8);
    long period = 19 * 60_000_000L;
    long[] cycle =
        LongStream.range(0, 60)
            .map(i -> i % 70 * period + 7 * 60_000_000L + (long) (3e7 * random.nextGaussian()))
            .toArray();
    long[] all =
        LongStream.concat(Arrays.stream(cycle), Arrays.stream(atRandom(random, 60, 24 * HOUR - 1)))
            .sorted()
            .toArray();
    Period found = Period.best(all, 0, 24 * HOUR, 60e6, 2.0 * HOUR);
    assertThat(found.periodMicros()).isCloseTo(period, within(4 * found.uMicros()));
    assertThat(found.chance()).isLessThan(1e-6);
    assertThat(found.resultant()).isBetween(0.35, 0.7);
    assertThat(found.phase()).isCloseTo(7 / 19.0, within(0.05));
    // With this seed half of the period is a little better: the step between tries counts half.
    double u = Math.pow(found.periodMicros(), 2) / (4 * 24.0 * HOUR) / (2 * 2);
    assertThat(found.uMicros()).isCloseTo(u, within(1e-6 * u));
  }

  /** A quarter more in every fourth cycle: the period is still the cycle. */
  @Test
  void aWeakSubharmonicIsNotTakenForThePeriod() {
    Random random = random(12);
    double period = 40e6;
    long[] times = new long[500];
    for (int i = 0; i < 500; i++) {
      int cycle = i < 400 ? 1 + i : 4 * (i - 400);
      times[i] = Math.round((cycle + 0.8 + 0.09 * random.nextGaussian()) * period);
    }
    Arrays.sort(times);
    Period found = Period.best(times, 0, Math.round(405 * period), 20e6, 10 * period);
    assertThat(found.periodMicros()).isCloseTo(period, within(2 * found.uMicros()));
    assertThat(found.phase()).isCloseTo(0.8, within(0.08));
  }

  /** Three and a half cycles have a mean of their own, which tells nothing of the events. */
  @Test
  void anUnfinishedCycleIsNoPeriod() {
    Random random = random(10);
    long[] times = atRandom(random, 20_000, 10 * HOUR);
    for (double longest : new double[] {10 / 3.25, 10 / 3.5}) {
      Period found = Period.best(times, 0, 10 * HOUR, longest * HOUR, longest * HOUR);
      assertThat(found.chance()).as("longest=" + longest).isGreaterThan(1e-4);
    }
  }

  /**
   * Look-elsewhere: of events at random no more is claimed than said, also in unfinished cycles.
   */
  @Test
  void noMoreIsClaimedOfEventsAtRandomThanItSays() {
    Random random = random(9);
    int runs = 300;
    int claimed = 0;
    int naive = 0;
    for (int i = 0; i < runs; i++) {
      long[] times = atRandom(random, 80, 10 * HOUR);
      Period found = Period.best(times, 0, 10 * HOUR, 0.1 * HOUR, 3.2 * HOUR);
      claimed += found.chance() < 0.2 ? 1 : 0;
      naive += Period.chance(80, found.resultant()) < 0.2 ? 1 : 0;
    }
    assertThat(claimed).isBetween(1, (int) (0.2 * runs + 4 * Math.sqrt(0.16 * runs)));
    // Without the correction nearly every one would be 'periodic'.
    assertThat(naive).isGreaterThan(9 * runs / 10);
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    assertThatThrownBy(() -> Burstiness.gapVariation(new long[] {1, 2})).hasMessage("events=2");
    assertThatThrownBy(() -> Burstiness.gapVariation(new long[] {1, 3, 2}))
        .hasMessageContaining("micros=2");
    assertThatThrownBy(() -> Burstiness.dispersion(new long[] {7}, 0, 7, 2))
        .hasMessageContaining("micros=7");
    assertThatThrownBy(() -> Burstiness.dispersion(new long[0], 0, 7, 2))
        .hasMessageContaining("windows=2");
    assertThatThrownBy(() -> Period.best(new long[5], 0, 10, 1, 4))
        .hasMessageContaining("longestMicros=4.0");
  }

  /** A clock, over a long watch that does not begin at nought: nothing at random is so even. */
  @Test
  void aClockIsEvenAndHasItsPeriod() {
    long begin = 5 * HOUR;
    long[] times =
        LongStream.range(0, 50).map(i -> begin + 300_000_000 + i * 600_000_000).toArray();
    Exposure exposure = Exposure.without(begin, begin + 30_000_000_000L, java.util.List.of());
    Rhythm rhythm = Rhythm.of(times, exposure, 4);
    assertThat(rhythm.manner()).isEqualTo(Manner.EVENLY);
    assertThat(rhythm.groups()).isEqualTo(50);
    Period period = rhythm.period().orElseThrow();
    // The period itself, or what it keeps to as well as to that: a whole multiple never.
    assertThat(600e6 / period.periodMicros())
        .isCloseTo(Math.rint(600e6 / period.periodMicros()), within(0.01));
    assertThat(rhythm.chance()).isLessThan(1e-9);
    Period found = Period.best(times, begin, begin + 30_000_000_000L, 400e6, 5e9);
    assertThat(found.periodMicros()).isCloseTo(600e6, within(found.uMicros()));
    assertThat(found.phase()).isCloseTo(0.5, within(0.02));
    assertThat(found.resultant()).isGreaterThan(0.99);
    assertThat(Burstiness.gapVariation(times)).isZero();
    // Gaps of 1, 2 and 6: mean 3, variance (4 + 1 + 9) / 2.
    assertThat(Burstiness.gapVariation(new long[] {0, 1, 3, 9}))
        .isCloseTo(Math.sqrt(7) / 3, within(1e-12));
    // Counts 3, 0, 0 and 1 in quarters: mean 1, variance (4 + 1 + 1 + 0) / 3.
    assertThat(Burstiness.dispersion(new long[] {5, 6, 29, 110}, 5, 125, 4).fano())
        .isCloseTo(2, within(1e-12));
  }

  @Test
  void fiveEventsAreTheFewest() {
    Exposure exposure = Exposure.without(0, HOUR, java.util.List.of());
    Rhythm four = Rhythm.of(new long[] {1, 2, 3, 4}, exposure, 1);
    assertThat(four.manner()).isEqualTo(Manner.TOO_FEW);
    assertThat(four.groups()).isEqualTo(4);
    assertThat(four.chance()).isEqualTo(1);
    Rhythm five = Rhythm.of(new long[] {1, 2, 3, 4, 5}, exposure, 1);
    assertThat(five.manner()).isEqualTo(Manner.IN_BURSTS);
    assertThat(five.groups()).isEqualTo(1);
    // Looked for among ten times as many it is ten times as likely by chance.
    assertThat(Rhythm.of(new long[] {1, 2, 3, 4, 5}, exposure, 10).chance())
        .isCloseTo(10 * five.chance(), within(1e-9 * five.chance()));
  }

  @Test
  void aPeriodIsSoughtWithinTheWatch() {
    long[] times = {100, 120, 140, 160, 190};
    assertThat(Period.best(times, 100, 190, 10, 30).resultant()).isBetween(0.0, 1.0);
    assertThatThrownBy(() -> Period.best(times, 101, 190, 10, 20))
        .hasMessage("outside the watch: micros=100");
    assertThatThrownBy(() -> Period.best(times, 100, 189, 10, 20))
        .hasMessage("outside the watch: micros=190");
    for (double[] bad : new double[][] {{0, 20}, {21, 20}, {10, 30.1}, {1e-7, 30}}) {
      assertThatThrownBy(() -> Period.best(times, 100, 190, bad[0], bad[1]))
          .hasMessageContaining("spanMicros=90.0 shortestMicros=" + bad[0]);
    }
    assertThatThrownBy(() -> Period.best(new long[4], 0, 90, 10, 20))
        .hasMessageContaining("events=4");
    for (int windows : new int[] {1, 1_000_001}) {
      assertThatThrownBy(() -> Burstiness.dispersion(times, 0, 200, windows))
          .hasMessageContaining("windows=" + windows);
    }
    assertThatThrownBy(() -> Burstiness.dispersion(times, 101, 200, 2))
        .hasMessageContaining("micros=100");
    assertThatThrownBy(() -> Burstiness.dispersion(times, 200, 200, 2))
        .hasMessageContaining("toMicros=200");
    assertThatThrownBy(() -> Burstiness.gapVariation(new long[] {7, 7, 7}))
        .hasMessageContaining("micros=7");
  }
}
