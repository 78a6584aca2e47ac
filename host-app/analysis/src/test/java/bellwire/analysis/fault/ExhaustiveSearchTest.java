package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Small cables with touching conductors, explained by the inference and by a search of everything:
 * the same faults first, as probable, and the same positions on the plug.
 */
class ExhaustiveSearchTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 4);

  private static final double EVEN = 2;

  private static final double IDENTIFYING_LOG_ODDS = Math.log(1e6);

  /** The inference follows nothing up that is e^-40 times less probable than the best. */
  private static final double CAPPED_LOG_ODDS = 35;

  private static final int FIRST = Integer.getInteger("bellwire.seed", 19);

  /** Two that touch, at times with a break or a joint or at metal; every sixth time three. */
  private static SyntheticCable draw(long seed) {
    Random random = new Random(seed * 104_729);
    int kind = (int) (seed % 6);
    // Fewer than three that nothing joins leave the plug's arms unread.
    int conductors = kind == 5 ? 5 : 4 + random.nextInt(2);
    int positions = 5 + random.nextInt(2);
    double[] arms = Arrays.copyOf(SyntheticCable.ARMS, positions);
    double run = 0.03 * Math.pow(100, random.nextDouble());
    SyntheticCable cable = new SyntheticCable(random, conductors, arms, run);
    double at = random.nextDouble();
    double ohms = 0.02 * Math.pow(5000, random.nextDouble());
    cable.bridge(0, kind == 1 ? cable.metal : 1, at, ohms);
    switch (kind) {
      case 2 -> cable.broken(1, at + (1 - at) * random.nextDouble());
      case 3 -> cable.joint(0, random.nextDouble(), 0.02 * Math.pow(50, random.nextDouble()));
      case 4 -> cable.joint(1, random.nextDouble(), 0.02 * Math.pow(50, random.nextDouble()));
      case 5 -> cable.bridge(1, 2, random.nextDouble(), 0.1 + 10 * random.nextDouble());
      default -> {}
    }
    return cable;
  }

  @Test
  void inferenceSaysWhatASearchOfEverythingSays() {
    int fits = 0;
    int right = 0;
    int undecided = 0;
    int certain = 0;
    int claimed = 0;
    double worst = 0;
    for (int k = 0; k < CABLES; k++) {
      long seed = FIRST + k;
      SyntheticCable cable = draw(seed);
      Evidence evidence = cable.evidence();
      Diagnosis.Outcome said = Diagnosis.of(evidence);
      ExhaustiveSearch search = new ExhaustiveSearch(evidence);
      fits += search.fits;
      Explanation first = said.explanations().get(0);
      Set<String> faults = ExhaustiveSearch.names(first.faults());
      String as = "seed=" + seed + " truth=" + cable.truth + " said=" + said;
      right += faults.equals(ExhaustiveSearch.names(cable.truth)) ? 1 : 0;
      double off = Math.abs(first.probability() - search.probability(faults));
      worst = Math.max(worst, off);
      undecided += first.probability() < 0.999 ? 1 : 0;
      assertThat(search.mostProbable()).as(as).isEqualTo(faults);
      assertThat(off).as(as).isLessThan(0.01);
      for (var claim : said.positions().entrySet()) {
        Position position = claim.getValue();
        if (position.odds() > EVEN) {
          double logOdds = Math.log(position.odds());
          double known = search.logOdds(claim.getKey(), position.position());
          assertThat(Math.min(logOdds, CAPPED_LOG_ODDS))
              .as("port=%d %s", claim.getKey(), as)
              .isLessThan(known + 0.1);
          certain += known > CAPPED_LOG_ODDS ? 1 : 0;
          claimed += known > CAPPED_LOG_ODDS && logOdds > IDENTIFYING_LOG_ODDS ? 1 : 0;
        }
      }
    }
    System.out.printf(
        "seeds %d to %d: %d fits, true faults first in %d of %d, %d below 0.999,"
            + " probabilities differ by %.1e at most; %d of %d certain positions claimed%n",
        FIRST, FIRST + CABLES - 1, fits, right, CABLES, undecided, worst, claimed, certain);
    assertThat(claimed).isGreaterThan(certain / 2);
    assertThat(undecided).as("cables that are not certain").isPositive();
  }
}
