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
import org.junit.jupiter.api.Test;

/** Several hundred faulty cables through every layer: is the true fault ranked first, and where. */
class DiagnosisTest {
  private static final int CABLES = Integer.getInteger("bellwire.cables", 300);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 1);

  private static final class Tally {
    int cables;
    int first;
    int firstThree;
    int unexplained;
  }

  private static final class Places {
    final List<Double> errors = new ArrayList<>();
    int covered;
    int undecided;

    void add(double truth, Quantity said) {
      if (said == null || said.u() > 0.15) {
        undecided++;
      } else {
        errors.add(Math.abs(said.value() - truth));
      }
      covered += said != null && Math.abs(said.value() - truth) <= 2 * said.u() ? 1 : 0;
    }

    void print(String name) {
      Collections.sort(errors);
      int n = errors.size();
      System.out.printf(
          Locale.ROOT,
          "%-34s placed %4d, undecided %3d, median error %.4f of the run, 90 %% below %.4f, inside 2 u %.3f%n",
          name,
          n,
          undecided,
          n == 0 ? Double.NaN : errors.get(n / 2),
          n == 0 ? Double.NaN : errors.get(n * 9 / 10),
          (double) covered / Math.max(1, n + undecided));
    }
  }

  /** Every third cable has two faults; the others go through the single ones in turn. */
  private static Draw drawOf(int seed) {
    int k = seed - 1;
    return k % 3 == 2 ? Draw.TWO : Draw.values()[(k / 3 * 2 + k % 3) % (Draw.values().length - 1)];
  }

  @Test
  void trueFaultIsRankedFirst() throws Exception {
    Map<Draw, Tally> tallies = new EnumMap<>(Draw.class);
    Places long4 = new Places();
    Places shorter = new Places();
    List<String> missed = new ArrayList<>();
    for (int k = 0; k < CABLES; k++) {
      int seed = FIRST + k;
      Draw draw = drawOf(seed);
      FaultyCable cable = new FaultyCable(seed, draw);
      SurveyOutcome outcome = SimulatedSurvey.run(cable.yaml(), SimulatedSurvey.options()).outcome;
      SurveyResult result = outcome.result();
      Tally tally = tallies.computeIfAbsent(draw, d -> new Tally());
      tally.cables++;
      if (result == null) {
        missed.add(cable + "\n    no result: " + outcome.trippedFlags() + " " + outcome.foreign());
        continue;
      }
      List<Explanation> said = result.explanations();
      List<Fault> truth = cable.faults();
      boolean first = !said.isEmpty() && said.get(0).sameFaults(truth);
      tally.first += first ? 1 : 0;
      tally.firstThree += said.stream().limit(3).anyMatch(e -> e.sameFaults(truth)) ? 1 : 0;
      tally.unexplained += said.isEmpty() || !said.get(0).explained() ? 1 : 0;
      if (first && !said.get(0).explained()) {
        System.out.println("UNEXPLAINED " + cable + "\n   " + said);
      }
      if (!first) {
        missed.add(cable + "\n    " + said);
        continue;
      }
      for (Drawn drawn : cable.truth) {
        if (drawn.fault().kind() == Fault.Kind.BRIDGE && drawn.ohms() < 100) {
          Quantity place =
              said.get(0).faults().stream()
                  .filter(f -> f.sameAs(drawn.fault()))
                  .findFirst()
                  .orElseThrow()
                  .place();
          if (place == null) {
            continue;
          }
          if (Math.abs(place.value() - drawn.place()) > 2 * place.u()) {
            System.out.println("OUTSIDE " + place + " " + cable);
          }
          (cable.runOhms >= 0.4 ? long4 : shorter).add(drawn.place(), place);
        }
      }
    }
    missed.forEach(m -> System.out.println("MISSED " + m));
    System.out.println("drawn                  cables  first  first three  unexplained");
    tallies.forEach(
        (draw, t) ->
            System.out.printf(
                "%-22s %6d %6d %12d %12d%n", draw, t.cables, t.first, t.firstThree, t.unexplained));
    long4.print("bridges below 100 ohm, run 0.4 ohm+");
    shorter.print("bridges below 100 ohm, run shorter");
    assertThat(tallies).isNotEmpty();
  }
}
