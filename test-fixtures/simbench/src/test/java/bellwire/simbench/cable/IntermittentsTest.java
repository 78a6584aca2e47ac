package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.simbench.RandomBenches;
import bellwire.simbench.file.Bench;
import java.util.List;
import org.junit.jupiter.api.Test;

class IntermittentsTest {
  private static final long SECOND = 1_000_000_000L;
  private static final long HOUR = 3600 * SECOND;
  private static final long SEED = 20;

  private static Bench bench(String when, String more) {
    return RandomBenches.of(
        SEED,
        4,
        "intermittent: [{opening: P2, at: 0.1, " + when + ", lasting: 5 us..2 s" + more + "}]\n");
  }

  private static List<Occurrence> drawn(String when, String more, long hours) {
    System.out.println("seed=" + SEED);
    return Intermittents.between(bench(when, more), SEED, 0, hours * HOUR);
  }

  private static double[] gaps(List<Occurrence> list) {
    double[] gaps = new double[list.size() - 1];
    for (int i = 0; i < gaps.length; i++) {
      gaps[i] = list.get(i + 1).startNanos() - list.get(i).startNanos();
    }
    return gaps;
  }

  /** Mean and coefficient of variation. */
  private static double[] moments(double[] x) {
    double sum = 0;
    double squares = 0;
    for (double v : x) {
      sum += v;
      squares += v * v;
    }
    double mean = sum / x.length;
    return new double[] {mean, Math.sqrt(squares / x.length - mean * mean) / mean};
  }

  /** Exponential gaps have a coefficient of variation of 1; bounds are four standard errors. */
  @Test
  void poisson() {
    List<Occurrence> list = drawn("poisson: {per-hour: 60}", "", 100);
    assertThat((double) list.size()).isCloseTo(6000, within(4 * Math.sqrt(6000)));
    assertThat(moments(gaps(list))[1]).isCloseTo(1, within(4 / Math.sqrt(6000)));
  }

  /** Log-uniform from 5 us to 2 s: each decade alike, ln(2/5e-6)/ln 10 = 5.602 of them. */
  @Test
  void lengthsAreLogUniform() {
    List<Occurrence> list = drawn("poisson: {per-hour: 60}", "", 100);
    assertThat(list).allMatch(o -> o.nanos() >= 5_000 && o.nanos() <= 2 * SECOND);
    long n = list.size();
    for (long low = 10_000; low < SECOND; low *= 10) {
      long from = low;
      double in = list.stream().filter(o -> o.nanos() >= from && o.nanos() < 10 * from).count();
      double share = 1 / 5.602;
      assertThat(in / n).isCloseTo(share, within(4 * Math.sqrt(share * (1 - share) / n)));
    }
  }

  @Test
  void burstsAreBursts() {
    List<Occurrence> list =
        drawn("bursts: {per-hour: 10, events: 8, gap: 100 ms}", "", 200).stream().toList();
    double[] gaps = gaps(list);
    long between = java.util.Arrays.stream(gaps).filter(g -> g > 10 * SECOND).count();
    // 2000 bursts; a burst comes within 10 s of another in 3 % of them.
    assertThat((double) between).isCloseTo(2000 * Math.exp(-10 / 360.0), within(4 * 45.0));
    assertThat(moments(gaps)[1]).isGreaterThan(2);
  }

  @Test
  void aCycleKeepsItsPhase() {
    List<Occurrence> list =
        drawn("cycle: {period: 12 min, phase: 3 min, jitter: 5 s, chance: 0.7}", "", 200);
    assertThat((double) list.size()).isCloseTo(700, within(4 * Math.sqrt(1000 * 0.7 * 0.3)));
    for (Occurrence o : list) {
      long off = Math.floorMod(o.startNanos() - 180 * SECOND + 5 * SECOND, 720 * SECOND);
      assertThat(off).isBetween(0L, 10 * SECOND);
    }
  }

  /** Rate exp(0.3/K · 5 K · cos): warmer half over colder half by the integral, 7.0. */
  @Test
  void warmHoursHaveMore() {
    List<Occurrence> list =
        drawn(
            "temperature: {per-hour: 20, per-kelvin: 0.3, swing: 5 K, period: 24 h, warmest: 15 h}",
            "",
            24 * 20);
    double[] expected = new double[2];
    for (int minute = 0; minute < 1440; minute++) {
      double cos = Math.cos(2 * Math.PI * (minute / 60.0 - 15) / 24);
      expected[cos > 0 ? 0 : 1] += 20 * 20 / 60.0 * Math.exp(0.3 * 5 * cos);
    }
    double[] counted = new double[2];
    for (Occurrence o : list) {
      double hour = (double) (o.startNanos() % (24 * HOUR)) / HOUR;
      counted[Math.cos(2 * Math.PI * (hour - 15) / 24) > 0 ? 0 : 1]++;
    }
    for (int half = 0; half < 2; half++) {
      assertThat(counted[half])
          .isCloseTo(expected[half], within(4 * Math.sqrt(expected[half]) + 0.01 * expected[half]));
    }
  }

  @Test
  void vibrationComesWhileItRunsAtOnePointOfItsSwing() {
    List<Occurrence> list =
        drawn(
            "vibration: {period: 10 min, phase: 2 min, running: 3 min, hz: 25, chance: 0.001}",
            "",
            100);
    double expected = 600 * 180 * 25 * 0.001;
    assertThat((double) list.size())
        .isCloseTo(expected, within(4 * Math.sqrt(expected) + 0.02 * expected));
    for (Occurrence o : list) {
      long into = Math.floorMod(o.startNanos() - 120 * SECOND, 600 * SECOND);
      assertThat(into).isBetween(0L, 180 * SECOND);
      double swing = into * 1e-9 * 25 % 1;
      assertThat(swing).isBetween(0.449, 0.551);
    }
  }

  @Test
  void noneBeginsBeforeOrAfterItsTimeAndNoneOverlaps() {
    List<Occurrence> list = drawn("poisson: {per-hour: 4000}", ", from: 2 h, until: 3 h", 100);
    long last = 2 * HOUR;
    for (Occurrence o : list) {
      assertThat(o.startNanos()).isGreaterThanOrEqualTo(last);
      last = o.endNanos();
    }
    assertThat(list.get(list.size() - 1).startNanos()).isLessThan(3 * HOUR);
    assertThat(list).hasSizeGreaterThan(2000);
  }

  /** The copper's view, which leaves out the short ones, and the event path's are of one world. */
  @Test
  void everyWatcherMeetsTheSame() {
    Bench bench = bench("poisson: {per-hour: 600}", "");
    List<Occurrence> all = Intermittents.between(bench, 3, 0, 10 * HOUR);
    Intermittents slow = new Intermittents(bench, 3, SECOND);
    for (Occurrence o : all) {
      if (o.nanos() >= SECOND) {
        assertThat(slow.nextNanos()).isEqualTo(o.startNanos());
        slow.advanceTo(o.startNanos());
        assertThat(slow.present()).isEqualTo(1);
        assertThat(slow.nextNanos()).isEqualTo(o.endNanos());
        slow.advanceTo(o.endNanos());
        assertThat(slow.present()).isZero();
      }
    }
    assertThat(Intermittents.between(bench, 3, 0, 10 * HOUR)).isEqualTo(all);
    assertThat(Intermittents.between(bench, 4, 0, 10 * HOUR)).isNotEqualTo(all);
  }
}
