package bellwire.analysis.vigil;

import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.distribution.discrete.BinomialDistribution;

/**
 * How events follow one another, and whether they keep to a period. Theory (114) to (116).
 *
 * @param manner what is said
 * @param chance that events at random look so at any of the conductors looked at, at most; for
 *     {@link Manner#AT_RANDOM} the least that was found, 1 for {@link Manner#TOO_FEW}
 * @param groups bursts, or single events between them
 * @param period where there is one; its chance holds for all conductors looked at
 */
public record Rhythm(Manner manner, double chance, int groups, Optional<Period> period) {
  /** What is said is wrong no more often than this, where there is nothing. */
  public static final double LEVEL = 0.01;

  private static final int FEWEST = 5;
  private static final int A_WINDOW = 5;
  private static final int MOST_WINDOWS = 200;

  /** Gaps below this share of the mean are short; 5 % at random are. */
  private static final double SHORT = 0.05;

  /** Evenly spaced ones have none below this share. */
  private static final double HALF = 0.5;

  /** Between bursts lies more than this share of the mean. */
  private static final double APART = 0.25;

  private static final int TESTS = 3;
  private static final double MOST_WORK = 1e6;
  private static final int MOST_TIMED = 2000;
  private static final double CYCLES_IN_A_WATCH = 3;

  /**
   * @param micros when each began, ascending
   * @param looks how many conductors are looked at in this way
   */
  public static Rhythm of(long[] micros, Exposure exposure, int looks) {
    int n = micros.length;
    if (n < FEWEST || exposure.micros() <= 0) {
      return new Rhythm(Manner.TOO_FEW, 1, n, Optional.empty());
    }
    Rhythm alone = withoutPeriod(micros, exposure, looks);
    long[] placed = Arrays.stream(micros).map(exposure::upTo).toArray();
    boolean bursts = alone.manner == Manner.IN_BURSTS;
    long[] timed = bursts ? onsets(micros, placed, exposure) : micros;
    return new Rhythm(alone.manner, alone.chance, alone.groups, period(timed, exposure, looks));
  }

  static Rhythm withoutPeriod(long[] micros, Exposure exposure, int looks) {
    long[] placed = Arrays.stream(micros).map(exposure::upTo).toArray();
    double burst = Math.min(shortGaps(placed, exposure), dispersed(placed, exposure));
    double even = noHalfGaps(placed, exposure);
    double chance = Math.min(1, (double) TESTS * looks * Math.min(burst, even));
    Manner manner = Manner.AT_RANDOM;
    if (chance < LEVEL) {
      manner = burst < even ? Manner.IN_BURSTS : Manner.EVENLY;
    }
    int groups =
        manner == Manner.IN_BURSTS ? onsets(micros, placed, exposure).length : micros.length;
    return new Rhythm(manner, chance, groups, Optional.empty());
  }

  private static double shortGaps(long[] placed, Exposure exposure) {
    int n = placed.length;
    int few = below(placed, SHORT * exposure.micros() / n);
    return 1 - binomial(n, SHORT).cumulativeProbability(few - 1);
  }

  private static double noHalfGaps(long[] placed, Exposure exposure) {
    int n = placed.length;
    int few = below(placed, HALF * exposure.micros() / n);
    return binomial(n, HALF).cumulativeProbability(few);
  }

  /** Each gap between n events at random is below a share of the mean with 1 - (1 - share/n)^n. */
  private static BinomialDistribution binomial(int n, double share) {
    return new BinomialDistribution(n - 1, -Math.expm1(n * Math.log1p(-share / n)));
  }

  private static int below(long[] placed, double micros) {
    int count = 0;
    for (int i = 1; i < placed.length; i++) {
      count += placed[i] - placed[i - 1] < micros ? 1 : 0;
    }
    return count;
  }

  private static double dispersed(long[] placed, Exposure exposure) {
    int windows = Math.min(MOST_WINDOWS, placed.length / A_WINDOW);
    if (windows < 2) {
      return 1;
    }
    long end = Math.max(exposure.micros(), placed[placed.length - 1] + 1);
    return Burstiness.dispersion(placed, 0, end, windows).chance();
  }

  private static long[] onsets(long[] micros, long[] placed, Exposure exposure) {
    double apart = APART * exposure.micros() / placed.length;
    long[] onsets = new long[micros.length];
    int count = 0;
    for (int i = 0; i < micros.length; i++) {
      if (i == 0 || placed[i] - placed[i - 1] >= apart) {
        onsets[count++] = micros[i];
      }
    }
    return Arrays.copyOf(onsets, count);
  }

  private static Optional<Period> period(long[] micros, Exposure exposure, int looks) {
    long[] stretch = exposure.unbroken();
    long[] in =
        Arrays.stream(micros)
            .filter(each -> each >= stretch[0] && each <= stretch[1])
            .limit(MOST_TIMED)
            .toArray();
    if (in.length < FEWEST) {
      return Optional.empty();
    }
    // So many that all would take too long: as far as the last of those that are looked at.
    long end = in.length < MOST_TIMED ? stretch[1] : in[in.length - 1];
    double span = (double) end - stretch[0];
    double tried = Math.min(MOST_WORK / in.length, MOST_TIMED * 10.0);
    double shortest = span / (CYCLES_IN_A_WATCH + tried / 4);
    Period best = Period.best(in, stretch[0], end, shortest, span / CYCLES_IN_A_WATCH);
    double chance = Math.min(1, looks * best.chance());
    return chance < LEVEL
        ? Optional.of(
            new Period(best.periodMicros(), best.uMicros(), best.resultant(), best.phase(), chance))
        : Optional.empty();
  }
}
