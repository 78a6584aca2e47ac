package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** What is claimed is wrong no more often than said, over seeded vigils. */
class VigilClaimsTest {
  private static final long HOUR = 3_600_000_000L;
  private static final int CABLE = 0b11_1111;
  private static final int RETURNED = 0;

  private static Watch watch(long hours, List<Unwatched> gaps) {
    return new Watch(
        VigilProgram.CONTINUITY, CABLE, RETURNED, 27, 0, hours * HOUR, gaps, List.of());
  }

  private static long[] atRandom(Random random, int n, Exposure exposure) {
    long[] micros = new long[n];
    for (int i = 0; i < n; ) {
      long at = (long) (random.nextDouble() * 24 * HOUR);
      if (exposure.upTo(at + 1) > exposure.upTo(at)) {
        micros[i++] = at;
      }
    }
    Arrays.sort(micros);
    return micros;
  }

  private static int poisson(Random random, double mean) {
    int n = -1;
    for (double t = 0; t < mean; t -= Math.log(1 - random.nextDouble())) {
      n++;
    }
    return n;
  }

  private static VigilEvent event(int port, long micros) {
    return new VigilEvent(
        port, micros - 1000, micros, micros + 2000, micros + 3000, 1, false, false, false);
  }

  @Test
  void eventsAtRandomAreSeldomCalledBurstsOrEven() {
    Random random = new Random(71);
    Exposure exposure =
        watch(
                24,
                List.of(
                    new Unwatched(2 * HOUR, 5 * HOUR, "link"),
                    new Unwatched(9 * HOUR, 9 * HOUR + 50_000_000, "link")))
            .exposure();
    int draws = 20_000;
    int claims = 0;
    for (int i = 0; i < draws; i++) {
      int n = 5 + (int) Math.exp(random.nextDouble() * Math.log(300));
      Rhythm rhythm = Rhythm.withoutPeriod(atRandom(random, n, exposure), exposure, 1);
      claims += rhythm.manner() == Manner.AT_RANDOM ? 0 : 1;
    }
    System.out.println("seed 71: false claims of bursts or evenness " + claims + " of " + draws);
    assertThat((double) claims / draws).as("seed 71").isLessThan(0.0121).isGreaterThan(0.001);
  }

  @Test
  void eventsAtRandomSeldomKeepToAPeriod() {
    Random random = new Random(72);
    Exposure exposure =
        watch(24, List.of(new Unwatched(HOUR, HOUR + 60_000_000, "link"))).exposure();
    int claims = 0;
    for (int i = 0; i < 300; i++) {
      long[] micros = atRandom(random, 5 + random.nextInt(30), exposure);
      claims += Rhythm.of(micros, exposure, 1).period().isPresent() ? 1 : 0;
    }
    System.out.println("seed 72: false periods " + claims + " of 300");
    // 1 % are 3; 9 or more have a chance of 0.4 %.
    assertThat(claims).as("seed 72").isLessThan(9);
  }

  @Test
  void aRatesIntervalHoldsItsRate() {
    Random random = new Random(73);
    List<Unwatched> gaps = List.of(new Unwatched(6 * HOUR, 10 * HOUR, "link"));
    Watch watch = watch(24, gaps);
    Exposure exposure = watch.exposure();
    int draws = 2000;
    int held = 0;
    for (int i = 0; i < draws; i++) {
      int n = poisson(random, 40);
      List<VigilEvent> events = new ArrayList<>();
      for (long micros : atRandom(random, n, exposure)) {
        events.add(event(2, micros));
      }
      PoissonRate rate = rate(watch, events);
      Interval of = rate.perSecond(0.95);
      double truth = 40 / (20 * 3600.0);
      held += of.low() <= truth && truth <= of.high() ? 1 : 0;
    }
    System.out.println("seed 73: 95 % intervals that hold the rate " + held + " of " + draws);
    assertThat((double) held / draws).as("seed 73").isBetween(0.93, 0.97);
  }

  private static PoissonRate rate(Watch watch, List<VigilEvent> events) {
    return new PoissonRate(events.size(), watch.exposure().seconds());
  }

  @Test
  void nothingRepairedIsSeldomCalledFewer() {
    Random random = new Random(74);
    int draws = 20_000;
    int fewer = 0;
    int held = 0;
    for (int i = 0; i < draws; i++) {
      PoissonRate before = new PoissonRate(poisson(random, 30), 4 * 3600);
      PoissonRate after = new PoissonRate(poisson(random, 30), 4 * 3600);
      VigilComparison.Line line =
          VigilComparison.Line.of(java.util.Optional.empty(), before, after, false);
      fewer += line.fewer() ? 1 : 0;
      held += line.ratio().low() <= 1 && line.ratio().high() >= 1 ? 1 : 0;
    }
    System.out.println(
        "seed 74: called fewer " + fewer + ", ratio's interval held " + held + " of " + draws);
    assertThat((double) fewer / draws).as("seed 74").isBetween(0.025, 0.053);
    assertThat((double) held / draws).as("seed 74").isBetween(0.945, 0.975);
  }

  @Test
  void burstsAreFoundAndCounted() {
    Random random = new Random(75);
    Exposure exposure = watch(24, List.of()).exposure();
    for (int draw = 0; draw < 100; draw++) {
      long[] micros = new long[40];
      for (int burst = 0; burst < 8; burst++) {
        long at = 3 * HOUR * burst + (long) (random.nextDouble() * HOUR);
        for (int i = 0; i < 5; i++) {
          micros[5 * burst + i] = at + i * 300_000;
        }
      }
      Rhythm rhythm = Rhythm.of(micros, exposure, 16);
      assertThat(rhythm.manner()).as("seed 75").isEqualTo(Manner.IN_BURSTS);
      assertThat(rhythm.groups()).isEqualTo(8);
    }
  }

  @Test
  void aCompressorsCycleIsFoundAmongSixteen() {
    Random random = new Random(76);
    Exposure exposure = watch(24, List.of()).exposure();
    long cycle = 720_000_000;
    for (int draw = 0; draw < 20; draw++) {
      long[] micros = new long[40];
      for (int i = 0; i < micros.length; i++) {
        micros[i] = 3 * i * cycle + (long) (random.nextGaussian() * 15e6) + 200_000_000;
      }
      Arrays.sort(micros);
      Rhythm rhythm = Rhythm.of(micros, exposure, 16);
      assertThat(rhythm.period()).as("seed 76").isPresent();
      double period = rhythm.period().orElseThrow().periodMicros();
      // Every third cycle shows one: a third of 36 minutes, or all of them.
      assertThat(3 * cycle / period)
          .isCloseTo(Math.round(3 * cycle / period), org.assertj.core.api.Assertions.within(0.02));
    }
  }
}
