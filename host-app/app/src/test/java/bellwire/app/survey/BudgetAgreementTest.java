package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.board.BoardDescription;
import bellwire.hardware.budget.Rung;
import bellwire.simbench.cable.Truth;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.junit.jupiter.api.Test;

/**
 * Three ways to the uncertainty of a resistance between two ports: the budget from the board's
 * circuit (theory (125)), what the analysis states (theory (4), (16)), and the errors of whole
 * surveys on the simulated bench, each with a board, a cable and contacts of its own.
 */
class BudgetAgreementTest {
  private static final int DRAWS = Integer.getInteger("bellwire.draws", 6);
  private static final long SEED = Long.getLong("bellwire.seed", 1);

  /** How often a sound bench may fail one of the checks below. */
  private static final double CHANCE = 1e-4;

  private static final SurveyOptions OPEN_ONLY =
      SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 1);

  /** One rung's surveys: errors in units of the analysis' u, and that u. */
  private record Seen(Rung rung, double[] normalized, double[] u) {
    double meanU() {
      double sum = 0;
      for (double each : u) {
        sum += each;
      }
      return sum / u.length;
    }

    double mean() {
      double sum = 0;
      for (double z : normalized) {
        sum += z;
      }
      return sum / normalized.length;
    }

    double squares() {
      double sum = 0;
      for (double z : normalized) {
        sum += z * z;
      }
      return sum;
    }

    int inside() {
      int count = 0;
      for (double z : normalized) {
        count += Math.abs(z) <= 2 ? 1 : 0;
      }
      return count;
    }
  }

  @Test
  void budgetAnalysisAndBenchAgree() throws Exception {
    System.out.println("BudgetAgreementTest seed=" + SEED + " draws=" + DRAWS);
    System.out.println(
        "        ohm  range            budget u  analysis u   ratio  mean z  variance  inside 2 u");
    List<Seen> all = new ArrayList<>();
    for (Rung rung : Rung.ladder(BoardDescription.revisionA())) {
      Seen seen = surveys(rung);
      all.add(seen);
      System.out.printf(
          Locale.ROOT,
          "%11.1f  %-15s  %8.3g  %10.3g  %6.3f  %6.2f  %8.2f  %10.3f%n",
          rung.ohms(),
          rung.range(),
          rung.budget().u(),
          seen.meanU(),
          seen.meanU() / rung.budget().u(),
          seen.mean(),
          seen.squares() / DRAWS,
          (double) seen.inside() / DRAWS);
    }
    for (Seen seen : all) {
      assertThat(seen.meanU() / seen.rung().budget().u())
          .as("analysis over budget at " + seen.rung().ohms())
          .isBetween(0.95, 1.05);
    }
    int n = all.size() * DRAWS;
    double squares = all.stream().mapToDouble(Seen::squares).sum();
    int inside = all.stream().mapToInt(Seen::inside).sum();
    System.out.printf(
        Locale.ROOT,
        "all: %d surveys, variance %.3f, inside 2 u %.3f%n",
        n,
        squares / n,
        (double) inside / n);
    // The lines' distributions have lighter tails than the normal one for which these bounds hold.
    ChiSquaredDistribution chi = new ChiSquaredDistribution(n);
    assertThat(squares)
        .isBetween(
            chi.inverseCumulativeProbability(CHANCE), chi.inverseCumulativeProbability(1 - CHANCE));
    assertThat(inside)
        .isGreaterThanOrEqualTo(
            new BinomialDistribution(n, 0.95).inverseCumulativeProbability(CHANCE));
    for (Seen seen : all) {
      ChiSquaredDistribution each = new ChiSquaredDistribution(DRAWS);
      assertThat(seen.squares())
          .as("scatter at " + seen.rung().ohms())
          .isBetween(
              each.inverseCumulativeProbability(CHANCE / all.size()),
              each.inverseCumulativeProbability(1 - CHANCE / all.size()));
    }
    noRangeIsBiased(all);
  }

  /** The mean of n normalized errors has the standard deviation 1/√n. */
  private static void noRangeIsBiased(List<Seen> all) {
    double sigmas = new NormalDistribution().inverseCumulativeProbability(1 - CHANCE / 2);
    all.stream()
        .collect(Collectors.groupingBy(seen -> seen.rung().range()))
        .forEach(
            (range, seen) -> {
              double mean = seen.stream().mapToDouble(Seen::mean).average().orElseThrow();
              assertThat(Math.abs(mean))
                  .as("bias of range " + range)
                  .isLessThan(sigmas / Math.sqrt(seen.size() * DRAWS));
            });
  }

  private static Seen surveys(Rung rung) throws Exception {
    double[] normalized = new double[DRAWS];
    double[] u = new double[DRAWS];
    SplittableRandom random = new SplittableRandom(SEED * 7919 + Math.round(rung.ohms() * 10));
    for (int k = 0; k < DRAWS; k++) {
      SimulatedSurvey survey = SimulatedSurvey.run(yaml(rung.ohms(), random), OPEN_ONLY);
      PairResult pair = Objects.requireNonNull(survey.outcome.result()).pairs().get(0);
      Quantity read = Objects.requireNonNull(pair.ohms());
      Truth truth = survey.truth;
      double really =
          Math.max(rung.ohms(), LEAST_OHMS)
              + truth.nearContactOhms(pair.a(), 0)
              + truth.nearContactOhms(pair.b(), 0);
      normalized[k] = (read.value() - really) / read.u();
      u[k] = read.u();
    }
    return new Seen(rung, normalized, u);
  }

  /** A bench has no bridge of nothing. */
  private static final double LEAST_OHMS = 1e-4;

  /** Two conductors joined at the terminals, on ports of their own. */
  private static String yaml(double ohms, SplittableRandom random) {
    int first = 1 + random.nextInt(15);
    int second = first + 1 + random.nextInt(16 - first);
    return String.format(
        Locale.ROOT,
        """
        bellwire-bench: 1
        seed: %d
        cable:
          gauge: 18 AWG
          length: %.2f m
          conductors:
            - {port: P%d, colour: a, far: 1}
            - {port: P%d, colour: b, far: 2}
        bridges: [{between: [P%d, P%d], at: 0, ohm: %.4f}]
        surroundings: {ambient: 22 C, hum: 5 mV 60 Hz}
        board: {noise: 1.0}
        """,
        random.nextInt(1_000_000_000),
        2 + 58 * random.nextDouble(),
        first,
        second,
        first,
        second,
        Math.max(ohms, LEAST_OHMS));
  }
}
