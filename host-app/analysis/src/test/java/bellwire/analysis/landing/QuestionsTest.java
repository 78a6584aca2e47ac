package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.Dialogue.Choice;
import bellwire.analysis.landing.Dialogue.Observation;
import bellwire.analysis.landing.Dialogue.Outcome;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Questions, answers and what is left, on two conductors that carry heat alone. */
class QuestionsTest {
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Explainer.Progress ON = (done, of) -> true;
  private static final double EXACT = 1e-9;

  private final Explainer explainer = new Explainer(HEAT);

  private Dialogue told(Symptom... seen) {
    return explainer.explain(Set.of(seen), Set.of(), true, ON);
  }

  private int index(String fragment) {
    List<Step> steps = explainer.steps();
    for (int k = 0; k < steps.size(); k++) {
      if (steps.get(k).measurement(steps.get(k).answers(Set.of())).words().contains(fragment)) {
        return k;
      }
    }
    throw new AssertionError("no step=" + fragment);
  }

  private void answer(Dialogue d, String fragment, int answer) {
    int index = index(fragment);
    d.observe(new Observation(index, d.posterior().judge(index).answers(), answer));
  }

  /** Two conductors, two terminals at the control, three at the equipment. */
  @Test
  void mistakesAndPairsAreCounted() {
    // At the control 2 not gripped, 2 elsewhere, 1 exchange; at the equipment 2, 4 and 1;
    // neighbours
    // touch at either end; on the way 2 broken, 2 poor, 4 on metal, 1 touch; limit switch,
    // transformer, and a coil that is open or shorted
    assertThat(explainer.mistakes()).isEqualTo(5 + 7 + 2 + 9 + 4);
    assertThat(explainer.pairs()).isEqualTo(27 * 26 / 2);
    assertThat(explainer.pairsSimulated()).isZero();
    assertThat(explainer.possible()).contains(NO_HEAT).doesNotContain(NO_COOLING);
  }

  /** No single mistake holds the heat and starves its valve: pairs are looked at. */
  @Test
  void progressCountsTheSinglesThenThePairs() {
    Set<Symptom> both = Set.of(HEAT_ALWAYS_ON, HUMS);
    List<String> told = new ArrayList<>();
    Explainer.Progress progress = (done, of) -> told.add(done + " of " + of);
    Dialogue d = explainer.explain(both, Set.of(), true, progress);
    assertThat(told).startsWith("0 of 28", "1 of 28").doesNotHaveDuplicates();
    assertThat(told.subList(27, 29)).containsExactly("27 of 28", "0 of 351");
    assertThat(explainer.pairsSimulated()).isEqualTo(told.size() - 28);
    // A second dialogue begins where the first one stopped
    told.clear();
    Dialogue again = explainer.explain(both, Set.of(), true, progress);
    assertThat(told).isEmpty();
    assertThat(again.causes()).isEqualTo(d.causes());
  }

  @Test
  void pairsAreSimulatedInTheOrderOfTheirPriors() {
    explainer.explain(Set.of(), Set.of(), false, ON);
    double before = explainer.nextLogPrior();
    double sum = Math.exp(explainer.logPriorOfTheRest());
    for (int k = 0; k < explainer.pairs(); k++) {
      double next = explainer.nextLogPrior();
      assertThat(next).isLessThanOrEqualTo(before);
      before = next;
      explainer.simulateNextPair(ON);
      sum -= Math.exp(next);
      assertThat(Math.exp(explainer.logPriorOfTheRest())).isCloseTo(sum, within(EXACT));
    }
    assertThat(explainer.nextLogPrior()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(explainer.pairsSimulated()).isEqualTo(explainer.pairs());
    Set<Installation> made = new HashSet<>();
    explainer.simulated().forEach(s -> assertThat(made.add(s.hypothesis().in(HEAT))).isTrue());
  }

  /** A shorted coil is hot on a call only; with supply on its terminal it is hot at rest. */
  @Test
  void withoutDoublesNoPairIsWeighed() {
    Set<Symptom> both = Set.of(NO_HEAT, TRANSFORMER_HOT, TRANSFORMER_HOT_ON_CALL);
    Dialogue d = explainer.explain(both, Set.of(), false, ON);
    assertThat(explainer.pairsSimulated()).isZero();
    assertThat(d.causes()).allMatch(c -> c.mistakes().size() < 2);
    assertThat(explainer.explain(both, Set.of(), true, ON).causes())
        .anyMatch(c -> c.mistakes().size() == 2);
    // Simulated for another, and not weighed here
    Dialogue again = explainer.explain(both, Set.of(), false, ON);
    assertThat(again.causes()).isEqualTo(d.causes());
  }

  /** Odds of one to its complement, multiplied: (80). */
  @Test
  void twoMistakesAreAsImprobableAsBothTogether() {
    Mistake broken = new Broken("red");
    Mistake joint = new PoorJoint("white");
    Hypothesis both = new Hypothesis(List.of(broken, joint));
    double odds = broken.prior() / (1 - broken.prior()) * joint.prior() / (1 - joint.prior());
    assertThat(Math.exp(both.logPrior())).isCloseTo(odds, within(1e-15));
    assertThat(new Hypothesis(List.of()).logPrior()).isZero();
    assertThat(both.in(HEAT)).isEqualTo(joint.in(broken.in(HEAT)));
    assertThat(both.mistakes()).containsExactly(broken, joint);
  }

  @Test
  void causesComeMostProbableFirstAndAddUpWithWhatIsUnexplained() {
    Dialogue d = told(NO_HEAT);
    List<Double> probabilities = d.causes().stream().map(Cause::probability).toList();
    assertThat(probabilities).hasSizeGreaterThan(5).hasSizeLessThanOrEqualTo(30);
    assertThat(probabilities)
        .isSortedAccordingTo(java.util.Comparator.reverseOrder())
        .allMatch(p -> p >= 0.001);
    double all = d.posterior().causes().stream().mapToDouble(Cause::probability).sum();
    double explained =
        d.bySymptoms().stream().flatMap(List::stream).mapToDouble(Cause::probability).sum();
    assertThat(d.unexplained()).isPositive();
    assertThat(explained + d.unexplained()).isCloseTo(all, within(EXACT));
    // Those below one in ten thousand are left out
    assertThat(all).isBetween(0.9, 1.0);
    assertThat(d.posterior().leftOut()).isBetween(0.0, 0.2);
    for (List<Cause> group : d.bySymptoms()) {
      assertThat(group.stream().map(this::symptoms).distinct()).hasSize(1);
      assertThat(symptoms(group.get(0))).isNotEqualTo(Symptoms.NONE);
    }
  }

  private Symptoms symptoms(Cause cause) {
    return supposed(cause.mistakes()).symptoms();
  }

  private Supposed supposed(List<Mistake> mistakes) {
    return explainer.simulated().stream()
        .filter(s -> s.hypothesis().mistakes().equals(mistakes))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void nothingToldAndNothingWrong() {
    Dialogue d = told();
    assertThat(d.causes().get(0).mistakes()).isEmpty();
    assertThat(d.unexplained()).isGreaterThan(0.9);
    assertThat(d.outcome()).isEqualTo(Outcome.FOUND);
    assertThat(d.next()).isNull();
  }

  /** (84) cause by cause, rather than code by code. */
  @Test
  void aQuestionTellsTheMutualInformationOfAnswerAndCause() {
    Dialogue d = told(NO_HEAT);
    List<Cause> causes = d.posterior().causes();
    double all = causes.stream().mapToDouble(Cause::probability).sum();
    List<Choice> choices = d.posterior().choices(Set.of());
    assertThat(choices).hasSizeGreaterThan(5);
    for (Choice choice : choices) {
      int answers = choice.answers().words().size();
      double[] marginal = new double[answers];
      double conditional = 0;
      for (Cause cause : causes) {
        int code = supposed(cause.mistakes()).codes(explainer.steps())[choice.index()];
        double share = cause.probability() / all;
        double[] p = new double[answers];
        for (int a = 0; a < answers; a++) {
          p[a] = choice.answers().probability(a, code);
          marginal[a] += share * p[a];
        }
        conditional += share * Information.entropy(p);
      }
      assertThat(choice.bits())
          .isCloseTo(Information.entropy(marginal) - conditional, within(EXACT));
    }
  }

  @Test
  void theQuestionIsTheOneThatTellsMostForItsCost() {
    Dialogue d = told(NO_HEAT);
    Set<Integer> asked = new HashSet<>();
    for (int round = 0; round < 8; round++) {
      List<Choice> choices = d.posterior().choices(asked);
      Choice best = Objects.requireNonNull(d.choice());
      assertThat(choices).allMatch(c -> c.bits() >= 0.02 && !asked.contains(c.index()));
      for (Choice other : choices) {
        assertThat(perCost(best)).isGreaterThanOrEqualTo(perCost(other));
      }
      assertThat(Objects.requireNonNull(d.next()).bits()).isEqualTo(best.bits());
      asked.add(best.index());
      d.dontKnow();
    }
    assertThat(d.asked()).isEqualTo(asked);
    // Some tell less than 0.02 bit: of those none is asked
    assertThat(d.posterior().choices(Set.of())).hasSizeLessThan(explainer.steps().size() - 1);
  }

  private double perCost(Choice choice) {
    return choice.bits() / explainer.steps().get(choice.index()).cost();
  }

  @Test
  void trueAnswersLeadToTheMistake() {
    Mistake broken = new Broken("white");
    Installation made = broken.in(HEAT);
    Case c = new Case(made, new Simulation(made), Symptoms.of(new SymptomReader(HEAT).read(made)));
    Dialogue d = told(NO_HEAT);
    int steps = 0;
    while (d.outcome() == Outcome.OPEN) {
      Choice choice = Objects.requireNonNull(d.choice());
      int code = explainer.steps().get(choice.index()).code(c);
      int best = 0;
      for (int a = 1; a < choice.answers().words().size(); a++) {
        boolean more =
            choice.answers().probability(a, code) > choice.answers().probability(best, code);
        best = more ? a : best;
      }
      String words = choice.answers().words().get(best);
      d.answer(best);
      assertThat(d.answered().get(steps++).answer()).isEqualTo(words);
    }
    assertThat(d.outcome()).isEqualTo(Outcome.FOUND);
    assertThat(d.causes().get(0).mistakes()).containsExactly(broken);
    assertThat(d.causes().get(0).probability()).isGreaterThanOrEqualTo(0.9);
    assertThat(d.next()).isNull();
    assertThat(steps).isLessThan(10);
  }

  @Test
  void whatWasAskedIsTakenDownInOrder() {
    Dialogue d = told(NO_HEAT);
    Measurement first = Objects.requireNonNull(d.next()).measurement();
    d.answer(1);
    Measurement second = Objects.requireNonNull(d.next()).measurement();
    d.dontKnow();
    assertThat(d.answered())
        .containsExactly(
            new Dialogue.Answered(first, first.answers().get(1)),
            new Dialogue.Answered(second, null));
  }

  @Test
  void anAnswerOutsideThoseOfferedIsRefused() {
    Dialogue d = told(NO_HEAT);
    int offered = Objects.requireNonNull(d.next()).measurement().answers().size();
    assertThatIllegalArgumentException().isThrownBy(() -> d.answer(-1)).withMessage("answer=-1");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> d.answer(offered))
        .withMessage("answer=" + offered);
    assertThat(d.answered()).isEmpty();
    while (d.choice() != null) {
      d.dontKnow();
    }
    assertThatIllegalArgumentException().isThrownBy(() -> d.answer(0));
    assertThatThrownBy(d::dontKnow)
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("outcome=UNDECIDED");
  }

  /** A transformer that gets hot on a call, confirmed: nothing that calls is tried any more. */
  @Test
  void aConfirmedHazardBarsItsStatesAndNeedNotBeAskedFor() {
    Dialogue d = told(NO_HEAT);
    assertThat(live(d)).contains(4L);
    answer(d, TRANSFORMER_HOT_ON_CALL.words(), 0);
    assertThat(live(d)).doesNotContain(4L);
    Dialogue denied = told(NO_HEAT);
    answer(denied, TRANSFORMER_HOT_ON_CALL.words(), 1);
    assertThat(live(denied)).contains(4L);
  }

  private List<Long> live(Dialogue d) {
    return d.posterior().choices(d.asked()).stream()
        .map(c -> explainer.steps().get(c.index()).live())
        .distinct()
        .toList();
  }

  /** 24 V into a shorted coil: once it is as probable as one in twenty, no call is measured. */
  @Test
  void noCallIsMeasuredWhileItMayHeatTheTransformer() {
    Dialogue d = told(NO_HEAT);
    assertThat(live(d)).contains(4L);
    answer(d, "lead of the gas valve", 1);
    assertThat(probability(d, "shorted")).isGreaterThan(0.05);
    assertThat(live(d)).doesNotContain(4L);
  }

  private static double probability(Dialogue d, String words) {
    return d.posterior().causes().stream()
        .filter(c -> c.words().contains(words))
        .mapToDouble(Cause::probability)
        .sum();
  }
}
