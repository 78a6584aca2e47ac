package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What each kind of step finds, and how probable its answers are: the figures of theory (83). */
class StepAnswersTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final double EXACT = 1e-12;

  private static Case of(Symptoms symptoms) {
    return new Case(FURNACE, new Simulation(FURNACE), symptoms);
  }

  private static State state(String name) {
    return FURNACE.control().states().stream()
        .filter(s -> s.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static List<Double> probabilities(Step.Answers answers, int code) {
    List<Double> all = new ArrayList<>();
    for (int answer = 0; answer < answers.words().size(); answer++) {
      all.add(answers.probability(answer, code));
    }
    assertThat(all.stream().mapToDouble(p -> p).sum()).isCloseTo(1, within(EXACT));
    return all;
  }

  private static void assertAnswers(Step.Answers answers, int code, double... probabilities) {
    List<Double> are = probabilities(answers, code);
    assertThat(are).hasSize(probabilities.length);
    for (int k = 0; k < probabilities.length; k++) {
      assertThat(are.get(k)).as("answer %d", k).isCloseTo(probabilities[k], within(EXACT));
    }
  }

  @Test
  void aSymptomIsAnsweredByYesAsItShows() {
    Asking asking = new Asking(Symptom.NO_HEAT, "caution", 1, 5);
    long bit = 1L << Symptom.NO_HEAT.ordinal();
    long other = 1L << Symptom.NO_FAN.ordinal();
    Step.Answers answers = asking.answers(Set.of());
    assertThat(answers.words()).containsExactly("yes", "no");
    assertAnswers(answers, asking.code(of(new Symptoms(bit, 0, 0))), 0.95, 0.05);
    assertAnswers(answers, asking.code(of(new Symptoms(other, bit, other))), 0.95, 0.05);
    assertAnswers(answers, asking.code(of(new Symptoms(other, 0, bit))), 0.5, 0.5);
    assertAnswers(answers, asking.code(of(new Symptoms(other, other, other))), 0.02, 0.98);
    assertThat(asking.bit()).isEqualTo(bit);
    assertThat(asking.live()).isEqualTo(5);
  }

  @Test
  void whatDoesHarmIsNotToBeTried() {
    assertThat(question(Symptom.CHATTERS))
        .isEqualTo(
            "Is it so: contactor or relay chatters? Was it ever met? Do not try it on purpose.");
    assertThat(question(Symptom.FAN_ALWAYS_ON))
        .isEqualTo("Is it so: fan is always on? Look at it at rest.");
    assertThat(question(Symptom.NO_HEAT))
        .isEqualTo("Is it so: nothing happens on a heat call? Try it where it is not known.");
    assertThat(measurement(Symptom.CHATTERS).caution()).isEmpty();
    assertThat(measurement(Symptom.FAN_ALWAYS_ON).caution()).isEqualTo("caution");
    assertThat(measurement(Symptom.NO_HEAT).live()).isTrue();
    assertThat(measurement(Symptom.CHATTERS).live()).isFalse();
    assertThat(measurement(Symptom.NO_HEAT).cost()).isEqualTo(3);
  }

  private static Measurement measurement(Symptom symptom) {
    Asking asking = new Asking(symptom, "caution", 3, 0);
    return asking.measurement(asking.answers(Set.of()));
  }

  private static String question(Symptom symptom) {
    return measurement(symptom).words();
  }

  /** Bins 0 to 2, 2 to 16, 16 to 32 V and more; 10 % about an edge is either bin. */
  @ParameterizedTest
  @CsvSource({
    "0, 0", "1.79, 0", "1.81, 4", "2, 4", "2.19, 4", "2.21, 1", "14.3, 1", "14.5, 5", "17.5, 5",
    "17.7, 2", "24, 2", "28.7, 2", "28.9, 6", "35.1, 6", "35.3, 3", "54, 3"
  })
  void voltsFallIntoABinOrOnTheEdgeOfTwo(double volts, int code) {
    assertThat(Metering.code(volts)).isEqualTo(code);
  }

  @Test
  void aReadingIsWrongByThreeInAHundred() {
    Metering metering = metering("off", "R", "C");
    Step.Answers answers = metering.answers(Set.of());
    assertThat(answers.words())
        .containsExactly(
            "none (below 2 V)", "low (2 to 16 V)", "about 24 V (16 to 32 V)", "more than 32 V");
    assertAnswers(answers, 0, 0.97, 0.01, 0.01, 0.01);
    assertAnswers(answers, 3, 0.01, 0.01, 0.01, 0.97);
    assertAnswers(answers, 4, 0.485, 0.485, 0.015, 0.015);
    assertAnswers(answers, 5, 0.015, 0.485, 0.485, 0.015);
    assertAnswers(answers, 6, 0.015, 0.015, 0.485, 0.485);
    assertThat(metering.live()).isEqualTo(2);
  }

  /** 27 V less a little from R to C; nothing on W until heat is called. */
  @Test
  void aMeterReadsTheVoltsOfItsState() {
    Case furnace = of(Symptoms.NONE);
    assertThat(metering("off", "R", "C").code(furnace)).isEqualTo(2);
    assertThat(metering("heat, at rest", "W", "C").code(furnace)).isEqualTo(0);
    assertThat(metering("heat, calling", "W", "C").code(furnace)).isEqualTo(2);
  }

  private static Metering metering(String state, String a, String b) {
    return new Metering("words", "caution", 3, state(state), 2, Point.near(a), Point.near(b));
  }

  @Test
  void aLookIsWrongByTwoInAHundred() {
    Looking look = new Looking("words", 1.5, List.of("a", "b", "c"), c -> 2);
    assertThat(look.code(of(Symptoms.NONE))).isEqualTo(2);
    assertThat(look.live()).isZero();
    assertThat(look.cost()).isEqualTo(1.5);
    assertAnswers(look.answers(Set.of()), 2, 0.01, 0.01, 0.98);
    assertThat(look.measurement(look.answers(Set.of())))
        .isEqualTo(new Measurement("words", List.of("a", "b", "c"), "", 1.5));
  }

  @Test
  void whatADescriptionOffersIsWhatIsStillConsidered() {
    List<String> shows = new ArrayList<>(List.of("first", "second", "first", "third"));
    Describing look = new Describing("words", "caution", 6, 0.04, 3, c -> shows.remove(0));
    Case any = of(Symptoms.NONE);
    assertThat(look.code(any)).isEqualTo(0);
    assertThat(look.code(any)).isEqualTo(1);
    assertThat(look.code(any)).isEqualTo(0);
    assertThat(look.code(any)).isEqualTo(2);
    Step.Answers answers = look.answers(Set.of(2, 0));
    assertThat(answers.words()).containsExactly("first", "third", "something else");
    assertAnswers(answers, 0, 0.96, 0.02, 0.02);
    assertAnswers(answers, 2, 0.02, 0.96, 0.02);
    assertAnswers(answers, 1, 0.02, 0.02, 0.96);
    assertThat(look.live()).isEqualTo(3);
    assertThat(new Describing("words", 6, 0.04, c -> "first").live()).isZero();
  }
}
