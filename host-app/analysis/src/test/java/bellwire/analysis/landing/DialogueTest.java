package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Dialogue.Outcome;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class DialogueTest {
  private static final Explainer.Progress ON = (done, of) -> true;

  private static Dialogue dialogue(SampleLoops sample, Symptom... seen) {
    return new Explainer(sample.healthy()).explain(Set.of(seen), Set.of(), true, ON);
  }

  /**
   * Products of probabilities over every hypothesis, nothing left out, no logarithms: (80), (81).
   */
  @ParameterizedTest
  @EnumSource(names = {"HEAT_ONLY", "BOILER"})
  void agreesWithTheSumOverEverything(SampleLoops sample) {
    Installation healthy = sample.healthy();
    SymptomReader reader = new SymptomReader(healthy);
    List<Mistake> single = Mistakes.single(healthy);
    List<List<Mistake>> all = new ArrayList<>(List.of(List.of()));
    single.forEach(m -> all.add(List.of(m)));
    for (int i = 0; i < single.size(); i++) {
      for (int j = i + 1; j < single.size(); j++) {
        all.add(List.of(single.get(i), single.get(j)));
      }
    }
    Map<List<Mistake>, Double> weights = new HashMap<>();
    Set<Installation> known = new HashSet<>();
    for (List<Mistake> mistakes : all) {
      Installation made = healthy;
      double weight = 1;
      for (Mistake m : mistakes) {
        made = m.in(made);
        weight *= m.prior() / (1 - m.prior());
      }
      if (known.add(made)) {
        SymptomReader.Reading reading = reader.read(made);
        boolean shows = reading.certain().contains(NO_HEAT) || reading.doubtful().contains(NO_HEAT);
        double outside = shows ? 1 : 0.01;
        weights.put(mistakes, outside * weight * told(reader, made, Set.of(NO_HEAT), Set.of(HUMS)));
      }
    }
    Dialogue d = new Explainer(healthy).explain(Set.of(NO_HEAT), Set.of(HUMS), true, ON);
    double sum = weights.values().stream().mapToDouble(w -> w).sum();
    double first = weight(d.causes().get(0), weights);
    for (Cause c : d.causes()) {
      assertThat(c.probability() / d.causes().get(0).probability())
          .as(c.words())
          .isCloseTo(weight(c, weights) / first, within(1e-3));
    }
    Set<List<Mistake>> listed = new HashSet<>();
    d.causes().forEach(c -> listed.add(c.mistakes()));
    d.causes().forEach(c -> listed.addAll(c.alike()));
    weights.forEach(
        (mistakes, weight) -> {
          if (weight > Explainer.NEGLIGIBLE * sum) {
            assertThat(listed).contains(mistakes);
          }
        });
    double missing = 1 - Math.exp(d.posterior().logTotal()) / sum;
    assertThat(missing).isBetween(1e-4, d.posterior().leftOut());
  }

  private static double weight(Cause c, Map<List<Mistake>, Double> weights) {
    double sum = weights.get(c.mistakes());
    for (List<Mistake> alike : c.alike()) {
      sum += weights.get(alike);
    }
    return sum;
  }

  private static double told(
      SymptomReader reader, Installation made, Set<Symptom> seen, Set<Symptom> denied) {
    SymptomReader.Reading reading = reader.read(made);
    double product = 1;
    for (Symptom s : reader.possible()) {
      int how =
          reading.shown().contains(s)
              ? 0
              : reading.implied().contains(s) ? 1 : reading.doubtful().contains(s) ? 2 : 3;
      if (seen.contains(s)) {
        product *= new double[] {0.65, 0.45, 0.4, 0.04}[how];
      } else if (denied.contains(s)) {
        product *= new double[] {0.05, 0.05, 0.5, 0.96}[how];
      } else {
        product *= new double[] {0.35, 0.55, 0.6, 0.96}[how];
      }
    }
    return product;
  }

  @Test
  void aDeniedSymptomSpeaksAgainstWhatShowsIt() {
    Explainer explainer = new Explainer(SampleLoops.FURNACE_COOLING.healthy());
    Dialogue open = explainer.explain(Set.of(NO_FAN), Set.of(), false, ON);
    Dialogue denied = explainer.explain(Set.of(NO_FAN), Set.of(NO_FAN_ON_COOLING), false, ON);
    String cause = "green broken on the way";
    assertThat(probability(denied, cause)).isLessThan(probability(open, cause) / 3);
  }

  private static double probability(Dialogue d, String words) {
    return d.causes().stream()
        .filter(c -> c.words().equals(words))
        .mapToDouble(Cause::probability)
        .sum();
  }

  @Test
  void undoTakesTheLastAnswerBack() {
    Dialogue d = dialogue(SampleLoops.HEAT_ONLY, NO_HEAT);
    Dialogue.Question first = d.next();
    List<Cause> before = d.causes();
    d.answer(0);
    assertThat(d.causes()).isNotEqualTo(before);
    assertThat(d.answered()).hasSize(1);
    d.undo();
    assertThat(d.causes()).isEqualTo(before);
    assertThat(d.next()).isEqualTo(first);
    d.undo();
    assertThat(d.causes()).isEqualTo(before);
  }

  @Test
  void whatIsNotKnownChangesNothingAndIsNotAskedAgain() {
    Dialogue d = dialogue(SampleLoops.HEAT_ONLY, NO_HEAT);
    List<Cause> before = d.causes();
    Set<String> asked = new HashSet<>();
    while (d.next() != null) {
      assertThat(asked.add(d.next().measurement().words())).isTrue();
      d.dontKnow();
      assertThat(d.causes()).isEqualTo(before);
    }
    assertThat(d.outcome()).isEqualTo(Outcome.UNDECIDED);
    assertThat(asked).hasSizeGreaterThan(10);
    d.undo();
    assertThat(d.outcome()).isEqualTo(Outcome.OPEN);
  }

  @Test
  void anAnswerThatIsNotOfferedIsTheCallersMistake() {
    Dialogue d = dialogue(SampleLoops.HEAT_ONLY, NO_HEAT);
    assertThatThrownBy(() -> d.answer(99)).hasMessageContaining("answer=99");
  }

  @Test
  void canBeCancelledAndBegunAgain() {
    Explainer explainer = new Explainer(SampleLoops.HEAT_ONLY.healthy());
    int[] calls = {0};
    assertThatThrownBy(
            () -> explainer.explain(Set.of(NO_HEAT), Set.of(), true, (d, of) -> ++calls[0] < 9))
        .isInstanceOf(CancellationException.class);
    Dialogue again = explainer.explain(Set.of(NO_HEAT), Set.of(), true, ON);
    assertThat(again.causes()).isEqualTo(dialogue(SampleLoops.HEAT_ONLY, NO_HEAT).causes());
  }

  @Test
  void nothingIsMeasuredLiveWhereAFuseWouldOpen() {
    Dialogue d = dialogue(SampleLoops.FURNACE_COOLING, FUSE_OPENS_ON_HEAT, NO_HEAT, BLANK_ON_HEAT);
    int asked = 0;
    while (d.next() != null && asked++ < 60) {
      assertThat(d.next().measurement().words()).doesNotContain("'heat, calling'");
      d.dontKnow();
    }
    assertThat(asked).isGreaterThan(5);
  }

  private static Dialogue single(SampleLoops sample, Symptom... seen) {
    return new Explainer(sample.healthy()).explain(Set.of(seen), Set.of(), false, ON);
  }

  /** Everything is answered by 'can't tell', so that every step that can come does. */
  private static List<Measurement> everyStep(Dialogue d) {
    List<Measurement> steps = new ArrayList<>();
    while (d.next() != null) {
      steps.add(d.next().measurement());
      d.dontKnow();
    }
    assertThat(steps).hasSizeGreaterThan(3);
    return steps;
  }

  @Test
  void aCallThatOpensAFuseIsNeverTriedAgain() {
    List<Measurement> steps = everyStep(single(SampleLoops.FURNACE_COOLING, FUSE_OPENS_ON_COOLING));
    assertThat(steps)
        .noneMatch(m -> m.words().contains("Control on 'cooling"))
        .noneMatch(m -> m.words().contains("cooling") && m.words().contains("Try it"));
    assertThat(steps.get(0).live()).isFalse();
  }

  @ParameterizedTest
  @EnumSource(names = {"FURNACE_COOLING", "HEAT_PUMP_O", "TWO_SUPPLIES"})
  void onlyDeadStepsAreLeftWhereAFuseOpensAtOnce(SampleLoops sample) {
    assertThat(everyStep(single(sample, FUSE_OPENS_AT_ONCE))).noneMatch(Measurement::live);
  }

  @Test
  void aBlankControlIsNotAskedToCall() {
    for (Measurement m : everyStep(single(SampleLoops.FURNACE_COOLING, CONTROL_BLANK))) {
      assertThat(m.words()).doesNotContain("calling'", "fan on'");
      assertThat(m.words()).doesNotContain("Try it where");
    }
  }

  @Test
  void whatWasToldOrFollowsFromItIsNotAsked() {
    Explainer explainer = new Explainer(SampleLoops.FURNACE_COOLING.healthy());
    Dialogue d = explainer.explain(Set.of(NO_COOLING, FAN_ALWAYS_ON), Set.of(NO_HEAT), false, ON);
    assertThat(everyStep(d))
        .noneMatch(m -> asksFor(m, NO_COOLING) || asksFor(m, FAN_ALWAYS_ON))
        .noneMatch(m -> asksFor(m, NO_HEAT) || asksFor(m, ONLY_FAN_ON_COOLING));
  }

  private static boolean asksFor(Measurement m, Symptom symptom) {
    return m.words().contains(symptom.words() + "?");
  }

  @ParameterizedTest
  @EnumSource(names = {"FURNACE_COOLING", "HEAT_PUMP_O", "TWO_SUPPLIES", "BOILER", "ZONE_PANEL"})
  void aFuseOrABlankControlIsNotPutDownToNothing(SampleLoops sample) {
    Explainer explainer = new Explainer(sample.healthy());
    explainer.explain(Set.of(), Set.of(), false, ON);
    Set<Symptom> shown = EnumSet.noneOf(Symptom.class);
    for (Supposed s : explainer.simulated()) {
      long beside = s.symptoms().implied();
      ExplainingRun.certain(s).stream()
          .filter(y -> (beside & 1L << y.ordinal()) == 0)
          .forEach(shown::add);
    }
    shown.retainAll(Symptom.seldomOutside());
    for (Symptom hard : shown) {
      Dialogue d = explainer.explain(Set.of(hard), Set.of(), false, ON);
      double first = d.bySymptoms().get(0).stream().mapToDouble(Cause::probability).sum();
      assertThat(first).as(hard.words()).isGreaterThan(d.unexplained());
    }
    assertThat(shown).isNotEmpty();
  }

  /** A setting that has nothing to do with a fuse is no explanation of it. */
  @Test
  void whatShowsNothingOfWhatWasToldExplainsNothing() {
    Explainer explainer = new Explainer(SampleLoops.FURNACE_COOLING.healthy());
    Dialogue d = explainer.explain(Set.of(FUSE_OPENS_ON_COOLING), Set.of(), false, ON);
    assertThat(d.causes())
        .flatExtracting(Cause::mistakes)
        .noneMatch(m -> m instanceof PartMistake.WrongSetting);
    assertThat(d.causes().get(0).words())
        .isEqualTo("the coil of the compressor contactor, or its wires, shorted");
  }

  @Test
  void liveStepsCarryTheirCautionDeadOnesSayPowerOff() {
    for (Step step : Steps.of(SampleLoops.FURNACE_COOLING.healthy(), Set.of())) {
      Measurement m = step.measurement(step.answers(Set.of()));
      if (step.live() != 0) {
        assertThat(m.caution()).startsWith("Live, 24 V class");
      } else if (!m.live() && !m.words().startsWith("What is the control's setting")) {
        assertThat(m.words()).startsWith("Power off, proved dead");
      }
    }
  }
}
