package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.survey.FaultyCable.Draw;
import bellwire.app.survey.FaultyCable.Drawn;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Several hundred faulty cables through every layer: whether the true faults are the first
 * explanation, and whether a bridge is where it is said to be.
 */
class DiagnosisTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 90);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 1);

  /** Beyond this a place is said to be undecided. */
  private static final double UNDECIDED = 0.1;

  /** A run with less copper than this is too short for its contacts. */
  private static final double LONG_RUN_OHMS = 0.4;

  private static final class Tally {
    int cables;
    int first;
    int firstThree;
    int unexplained;
    int oneOfTwo;
  }

  /** What was said of where bridges are, against where they were. */
  private static final class Placed {
    final String name;
    final List<Double> errors = new ArrayList<>();
    int inside;
    int undecided;
    int unsaid;

    Placed(String name) {
      this.name = name;
    }

    void add(double truth, @Nullable Quantity said) {
      if (said == null) {
        unsaid++;
        return;
      }
      if (said.u() > UNDECIDED) {
        undecided++;
      } else {
        errors.add(Math.abs(said.value() - truth));
      }
      inside += Math.abs(said.value() - truth) <= 2 * said.u() ? 1 : 0;
    }

    int said() {
      return errors.size() + undecided;
    }

    double median() {
      Collections.sort(errors);
      return errors.isEmpty() ? Double.NaN : errors.get(errors.size() / 2);
    }

    double share() {
      return said() == 0 ? Double.NaN : (double) inside / said();
    }

    void print() {
      System.out.printf(
          Locale.ROOT,
          "%-38s placed %4d  undecided %3d  unsaid %3d  median error %.4f of the run  inside 2 u %.3f%n",
          name,
          errors.size(),
          undecided,
          unsaid,
          median(),
          share());
    }
  }

  /** Every third cable has two faults; the others go through the single ones in turn. */
  private static Draw drawOf(int seed) {
    int k = seed - 1;
    return k % 3 == 2 ? Draw.TWO : Draw.values()[(k / 3 * 2 + k % 3) % (Draw.values().length - 1)];
  }

  @Test
  void theTrueFaultsAreTheFirstExplanation() throws Exception {
    Map<Draw, Tally> tallies = new EnumMap<>(Draw.class);
    Placed longRuns = new Placed("bridges below 100 ohm, run of 0.4 ohm+");
    Placed shortRuns = new Placed("bridges below 100 ohm, run below that");
    for (int seed = FIRST; seed < FIRST + CABLES; seed++) {
      FaultyCable cable = new FaultyCable(seed, drawOf(seed));
      SurveyOutcome outcome = SimulatedSurvey.run(cable.yaml(), options(cable)).outcome;
      SurveyResult result = outcome.result();
      assertThat(result)
          .as("%s: tripped=%s %s", cable, outcome.trippedFlags(), outcome.foreign())
          .isNotNull();
      List<Explanation> said = result.explanations();
      count(tallies.computeIfAbsent(cable.draw, d -> new Tally()), cable, said);
      if (blames(said.get(0), cable.faults())) {
        place(cable.runOhms >= LONG_RUN_OHMS ? longRuns : shortRuns, cable, said.get(0));
      }
    }
    System.out.println(
        "drawn                  cables  first  of these one of two ports  first three  unexplained");
    tallies.forEach(
        (draw, t) ->
            System.out.printf(
                "%-22s %6d %6d %25d %12d %12d%n",
                draw, t.cables, t.first, t.oneOfTwo, t.firstThree, t.unexplained));
    longRuns.print();
    shortRuns.print();
    check(tallies, longRuns);
  }

  /** The technician names the ports, so that one broken right at the board is not passed over. */
  private static SurveyOptions options(FaultyCable cable) {
    SurveyOptions o = SimulatedSurvey.options();
    int named = cable.ports.stream().mapToInt(p -> 1 << p).sum();
    return new SurveyOptions(
        named,
        o.plugs(),
        o.dwellMicros(),
        o.waitMicros(),
        o.fixedMicros(),
        o.reseatMicros(),
        o.plug(),
        o.facts(),
        o.criteria());
  }

  /**
   * Whether these are the true faults. A leakage from conductors that touch may be said to come
   * from one or the other of them: with a few ohms between them no reading of it tells.
   */
  private static boolean blames(Explanation said, List<Fault> truth) {
    return said.faults().size() == truth.size()
        && truth.stream().allMatch(t -> said.faults().stream().anyMatch(f -> covers(f, t)));
  }

  private static boolean covers(Fault said, Fault truth) {
    return said.kind() == truth.kind()
        && ((said.ports().containsAll(truth.ports()) && said.others().containsAll(truth.others()))
            || (said.ports().containsAll(truth.others())
                && said.others().containsAll(truth.ports())));
  }

  private static void count(Tally tally, FaultyCable cable, List<Explanation> said) {
    List<Fault> truth = cable.faults();
    boolean first = blames(said.get(0), truth);
    tally.oneOfTwo += first && !said.get(0).sameFaults(truth) ? 1 : 0;
    tally.cables++;
    tally.first += first ? 1 : 0;
    tally.firstThree += said.stream().limit(3).anyMatch(e -> blames(e, truth)) ? 1 : 0;
    tally.unexplained += said.get(0).explained() ? 0 : 1;
    if (!first) {
      System.out.println(
          "not first: " + cable + "\n  " + said.subList(0, Math.min(3, said.size())));
    }
  }

  private static void place(Placed placed, FaultyCable cable, Explanation said) {
    for (Drawn drawn : cable.truth) {
      if (drawn.fault().kind() == Fault.Kind.BRIDGE && drawn.ohms() < 100) {
        said.faults().stream()
            .filter(f -> f.sameAs(drawn.fault()))
            .findFirst()
            .ifPresent(f -> placed.add(drawn.place(), f.place()));
      }
    }
  }

  private static void check(Map<Draw, Tally> tallies, Placed longRuns) {
    int singles = 0;
    int singlesFirst = 0;
    int all = 0;
    int firstThree = 0;
    for (Map.Entry<Draw, Tally> e : tallies.entrySet()) {
      all += e.getValue().cables;
      firstThree += e.getValue().firstThree;
      if (e.getKey() != Draw.TWO) {
        singles += e.getValue().cables;
        singlesFirst += e.getValue().first;
      }
    }
    assertThat((double) singlesFirst / singles)
        .as("single faults first")
        .isGreaterThanOrEqualTo(0.97);
    assertThat((double) firstThree / all).as("among the first three").isGreaterThanOrEqualTo(0.99);
    Tally two = tallies.get(Draw.TWO);
    if (two != null) {
      assertThat((double) two.first / two.cables)
          .as("two faults first")
          .isGreaterThanOrEqualTo(0.9);
    }
    if (longRuns.said() > 30) {
      // Three standard deviations of a binomial share beside 0.90 to 0.98.
      double sigma = Math.sqrt(0.9 * 0.1 / longRuns.said());
      double upper = Math.sqrt(0.98 * 0.02 / longRuns.said());
      assertThat(longRuns.median()).as("median error").isLessThan(0.02);
      assertThat(longRuns.share()).as("inside 2 u").isBetween(0.90 - 3 * sigma, 0.98 + 3 * upper);
    }
  }
}
