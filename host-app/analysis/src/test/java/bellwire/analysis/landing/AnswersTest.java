package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.Dialogue.Observation;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;

/** What an answer does to the causes, and causes in words. */
class AnswersTest {
  private static final Explainer.Progress ON = (done, of) -> true;

  private static Dialogue told(Explainer explainer, Symptom... seen) {
    return explainer.explain(Set.of(seen), Set.of(), false, ON);
  }

  private static void answer(Explainer explainer, Dialogue d, String fragment, int answer) {
    List<Step> steps = explainer.steps();
    for (int k = 0; k < steps.size(); k++) {
      if (steps.get(k).measurement(steps.get(k).answers(Set.of())).words().contains(fragment)) {
        d.observe(new Observation(k, d.posterior().judge(k).answers(), answer));
        return;
      }
    }
    throw new AssertionError("no step=" + fragment);
  }

  private static double probability(Dialogue d, Mistake mistake) {
    return d.posterior().causes().stream()
        .filter(c -> c.mistakes().equals(List.of(mistake)))
        .mapToDouble(Cause::probability)
        .findFirst()
        .orElseThrow();
  }

  /**
   * A shorted coil heats the transformer, a broken conductor does not: 'yes' 0.95 against 0.02 (83)
   * in place of 0.35 against 0.96 for not having been mentioned (82).
   */
  @Test
  void anAnswerToASymptomCountsInPlaceOfItsTelling() {
    Explainer explainer = new Explainer(SampleLoops.HEAT_ONLY.healthy());
    Mistake shorted = new PartMistake.CoilShorted("gas valve");
    Mistake broken = new Broken("white");
    Dialogue d = told(explainer, NO_HEAT);
    double before = probability(d, shorted) / probability(d, broken);
    answer(explainer, d, TRANSFORMER_HOT_ON_CALL.words(), 0);
    double yes = probability(d, shorted) / probability(d, broken);
    assertThat(yes / before).isCloseTo(0.95 / 0.02 / (0.35 / 0.96), within(1e-9));
    // Shown by neither: it tells nothing of the two
    answer(explainer, d, HEAT_ALWAYS_ON.words(), 1);
    assertThat(probability(d, shorted) / probability(d, broken)).isCloseTo(yes, within(1e-9));
    Dialogue denied = told(explainer, NO_HEAT);
    answer(explainer, denied, TRANSFORMER_HOT_ON_CALL.words(), 1);
    double no = probability(denied, shorted) / probability(denied, broken);
    assertThat(no / before).isCloseTo(0.05 / 0.98 / (0.35 / 0.96), within(1e-9));
  }

  /** Nothing opens or heats in what is thought possible: it is the blank control that bars. */
  @Test
  void aBlankControlThatWasConfirmedIsNotSetToCall() {
    Explainer explainer = new Explainer(SampleLoops.BOILER.healthy());
    long call = 4;
    Dialogue d = told(explainer, NO_HEAT);
    assertThat(live(explainer, d)).contains(call);
    answer(explainer, d, CONTROL_BLANK.words(), 0);
    assertThat(live(explainer, d)).doesNotContain(call);
  }

  /** A transformer that is hot at rest is hot on a call. */
  @Test
  void whatFollowsFromAnAnswerIsNotAskedFor() {
    Explainer explainer = new Explainer(SampleLoops.HEAT_ONLY.healthy());
    Dialogue d = told(explainer, NO_HEAT);
    assertThat(asksFor(explainer, d, TRANSFORMER_HOT_ON_CALL)).isTrue();
    answer(explainer, d, TRANSFORMER_HOT.words(), 0);
    assertThat(asksFor(explainer, d, TRANSFORMER_HOT_ON_CALL)).isFalse();
  }

  private static boolean asksFor(Explainer explainer, Dialogue d, Symptom symptom) {
    return d.posterior().choices(d.asked()).stream()
        .map(c -> explainer.steps().get(c.index()))
        .anyMatch(s -> s instanceof Asking a && a.bit() == 1L << symptom.ordinal());
  }

  private static List<Long> live(Explainer explainer, Dialogue d) {
    return d.posterior().choices(d.asked()).stream()
        .map(c -> explainer.steps().get(c.index()).live())
        .distinct()
        .toList();
  }

  /** Nothing of what was thought probable is there: pairs are looked at, and then stopped. */
  @Test
  void anAnswerThatIsCancelledIsNotTakenDown() {
    Explainer explainer = new Explainer(SampleLoops.HEAT_ONLY.healthy());
    boolean[] on = {true};
    Dialogue d = explainer.explain(Set.of(NO_HEAT), Set.of(), true, (done, of) -> on[0]);
    List<Cause> before = d.causes();
    on[0] = false;
    assertThatThrownBy(() -> denyEverything(explainer, d))
        .isInstanceOf(CancellationException.class);
    while (!d.answered().isEmpty()) {
      d.undo();
    }
    assertThat(d.causes()).isEqualTo(before);
  }

  /** Everything that is not live is as planned. */
  private static void denyEverything(Explainer explainer, Dialogue d) {
    Installation healthy = explainer.intended();
    Case c = new Case(healthy, new Simulation(healthy), Symptoms.NONE);
    for (int k = 0; k < explainer.steps().size(); k++) {
      if (explainer.steps().get(k).live() == 0) {
        Step.Answers answers = d.posterior().judge(k).answers();
        int code = explainer.steps().get(k).code(c);
        int best = 0;
        for (int a = 1; a < answers.words().size(); a++) {
          best = answers.probability(a, code) > answers.probability(best, code) ? a : best;
        }
        int asked = d.answered().size();
        try {
          d.observe(new Observation(k, answers, best));
        } catch (CancellationException e) {
          assertThat(d.answered()).hasSize(asked);
          throw e;
        }
      }
    }
  }

  /** After a telling answer the rest is faint: below one in a thousand a cause is not told. */
  @Test
  void faintCausesAreNotTold() {
    Explainer explainer = new Explainer(SampleLoops.HEAT_ONLY.healthy());
    Dialogue d = told(explainer, NO_HEAT);
    answer(explainer, d, "survey it with Bellwire", survey(explainer, d));
    List<Cause> all = d.posterior().causes();
    assertThat(d.causes())
        .hasSizeLessThan(all.size())
        .isEqualTo(all.stream().filter(c -> c.probability() >= 0.001).toList());
    assertThat(all).allMatch(c -> c.probability() >= 1e-4);
  }

  /** The answer that white does not reach the far end. */
  private static int survey(Explainer explainer, Dialogue d) {
    for (int k = 0; k < explainer.steps().size(); k++) {
      List<String> answers = d.posterior().judge(k).answers().words();
      int index = answers.indexOf("white has no path to the far end");
      if (index >= 0) {
        return index;
      }
    }
    throw new AssertionError("no such answer");
  }

  @Test
  void aCauseSaysWhatAndWhatToDo() {
    Cause none = new Cause(List.of(), 1, List.of());
    assertThat(none.words()).isEqualTo("nothing in the low-voltage loop");
    assertThat(none.remedy()).startsWith("Look at the equipment itself: ");
    Mistake red = new Broken("red");
    Mistake white = new Broken("white");
    Cause both = new Cause(List.of(red, white), 1, List.of());
    assertThat(both.words()).isEqualTo("red broken on the way; and white broken on the way");
    assertThat(both.remedy()).isEqualTo(red.remedy());
    Mistake joint = new PoorJoint("red");
    assertThat(new Cause(List.of(red, joint), 1, List.of()).remedy())
        .isEqualTo(red.remedy() + " " + joint.remedy());
  }
}
