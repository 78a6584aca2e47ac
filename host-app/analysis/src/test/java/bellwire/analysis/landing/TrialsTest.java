package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.SampleLoops;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

/** Where a symptom is tried, where nothing is tried any more, and what need not be asked for. */
class TrialsTest {
  private static final List<State> STATES =
      SampleLoops.DUAL_FUEL_TWO_STAGE.healthy().control().states();

  private static final String[] RESTS = {
    "off", "heat, at rest", "cooling, at rest", "emergency heat, at rest"
  };
  private static final String[] FANS = {
    "off, fan on", "heat, fan on", "cooling, fan on", "emergency heat, fan on"
  };
  private static final String[] COOLINGS = {"cooling, stage 1", "cooling, stage 2"};
  private static final String[] HEATS = {
    "heat, stage 1",
    "heat, stage 2",
    "heat, stage 3",
    "emergency heat, stage 1",
    "emergency heat, stage 2"
  };

  private static List<String> names(long bits) {
    return names(k -> (bits & 1L << k) != 0);
  }

  private static List<String> names(Predicate<Integer> in) {
    return java.util.stream.IntStream.range(0, STATES.size())
        .filter(in::test)
        .mapToObj(k -> STATES.get(k).name())
        .toList();
  }

  private static long met(Symptom... symptoms) {
    return Symptoms.bits(Set.of(symptoms));
  }

  @Test
  void eachSymptomIsTriedInItsStates() {
    for (Symptom s : List.of(NO_COOLING, HEATS_ON_COOLING, SECOND_STAGE_OF_COOLING_AT_ONCE)) {
      assertThat(names(Trials.of(s, STATES))).as(s.words()).containsExactly(COOLINGS);
    }
    for (Symptom s : List.of(NO_FAN, HEAT_ON_FAN, OUTDOOR_UNIT_ON_FAN)) {
      assertThat(names(Trials.of(s, STATES))).as(s.words()).containsExactly(FANS);
    }
    for (Symptom s : List.of(NO_HEAT, COOLS_ON_HEAT, BLANK_ON_HEAT, AUXILIARY_HEAT_TOO_SOON)) {
      assertThat(names(Trials.of(s, STATES))).as(s.words()).containsExactly(HEATS);
    }
    for (Symptom s : List.of(CONTROL_BLANK, FAN_ALWAYS_ON, ACCESSORY_ALWAYS_ON)) {
      assertThat(names(Trials.of(s, STATES))).as(s.words()).containsExactly(RESTS);
    }
    for (Symptom s : List.of(NO_EMERGENCY_HEAT, OUTDOOR_UNIT_IN_EMERGENCY)) {
      assertThat(names(Trials.of(s, STATES)))
          .as(s.words())
          .containsExactlyElementsOf(
              STATES.stream().map(State::name).filter(n -> n.startsWith("emergency")).toList());
    }
    for (Symptom s : List.of(NOTHING_WORKS, HUMS, NO_ACCESSORY)) {
      assertThat(names(Trials.of(s, STATES)))
          .as(s.words())
          .doesNotContain(RESTS)
          .contains(FANS)
          .contains(COOLINGS)
          .contains(HEATS);
    }
  }

  @Test
  void whatDoesHarmIsTriedNowhere() {
    Set<Symptom> harmful = EnumSet.noneOf(Symptom.class);
    for (Symptom s : Symptom.values()) {
      if (Trials.harmful(s)) {
        harmful.add(s);
      }
      assertThat(Trials.of(s, STATES) == 0).as(s.words()).isEqualTo(Trials.harmful(s));
    }
    assertThat(harmful)
        .containsExactlyInAnyOrder(
            FUSE_OPENS_AT_ONCE,
            FUSE_OPENS_ON_HEAT,
            FUSE_OPENS_ON_COOLING,
            FUSE_OPENS_ON_FAN,
            TRANSFORMER_HOT,
            TRANSFORMER_HOT_ON_CALL,
            HEATS_AND_COOLS,
            CHATTERS);
  }

  /** A fuse that opens on heat has opened in a heat mode: nothing is tried there, fan included. */
  @Test
  void nothingIsTriedWhereAFuseOpened() {
    assertThat(names(Trials.barred(met(FUSE_OPENS_ON_HEAT), STATES)))
        .containsExactlyElementsOf(
            STATES.stream()
                .map(State::name)
                .filter(n -> n.startsWith("heat") || n.startsWith("emergency"))
                .toList());
    assertThat(names(Trials.barred(met(FUSE_OPENS_ON_COOLING), STATES)))
        .containsExactlyElementsOf(
            STATES.stream().map(State::name).filter(n -> n.startsWith("cooling")).toList());
    // The fan runs on cooling too
    assertThat(names(Trials.barred(met(FUSE_OPENS_ON_FAN), STATES)))
        .contains(FANS)
        .contains(COOLINGS)
        .doesNotContain(RESTS)
        .doesNotContain(HEATS);
  }

  @Test
  void atOnceMeansInEveryStateAndLifted() {
    for (Symptom s : List.of(FUSE_OPENS_AT_ONCE, TRANSFORMER_HOT)) {
      long barred = Trials.barred(met(s), STATES);
      assertThat(names(barred)).hasSize(STATES.size());
      assertThat(barred & Trials.LIFTED).isNotZero();
    }
  }

  @Test
  void aBlankControlCanNotBeSetToCall() {
    for (Symptom s : List.of(TRANSFORMER_HOT_ON_CALL, CONTROL_BLANK)) {
      assertThat(names(Trials.barred(met(s), STATES)))
          .doesNotContain(RESTS)
          .contains(FANS)
          .contains(COOLINGS)
          .contains(HEATS);
    }
    assertThat(Trials.barred(met(NO_HEAT, HUMS, CHATTERS), STATES)).isZero();
    assertThat(names(Trials.barred(met(FUSE_OPENS_ON_COOLING, FUSE_OPENS_ON_HEAT), STATES)))
        .doesNotContain("off", "off, fan on")
        .hasSize(STATES.size() - 2);
  }

  /** A blank control: nothing works; nothing works: no heat. */
  @Test
  void whatFollowsFromWhatWasToldIsKnown() {
    assertThat(Trials.known(met(CONTROL_BLANK), 0))
        .isEqualTo(
            met(
                CONTROL_BLANK,
                BLANK_ON_HEAT,
                BLANK_ON_COOLING,
                NOTHING_WORKS,
                NO_HEAT,
                NO_COOLING,
                NO_FAN,
                NO_AUXILIARY_HEAT,
                NO_EMERGENCY_HEAT,
                NO_ACCESSORY));
    assertThat(Trials.known(met(HUMS), met(CONTROL_BLANK))).isEqualTo(met(HUMS, CONTROL_BLANK));
    assertThat(Trials.known(0, 0)).isZero();
  }

  @Test
  void aLesserSymptomIsImpliedOnlyBesideItsGreaterOne() {
    assertThat(Implied.by(EnumSet.of(FAN_ALWAYS_ON, ONLY_FAN_ON_HEAT, NO_COOLING)))
        .containsExactly(ONLY_FAN_ON_HEAT);
    assertThat(Implied.by(EnumSet.of(ONLY_FAN_ON_HEAT, NO_COOLING))).isEmpty();
    assertThat(Implied.by(met(TRANSFORMER_HOT, FUSE_OPENS_ON_FAN)))
        .isEqualTo(met(TRANSFORMER_HOT_ON_CALL, NO_FAN));
    assertThat(Implied.by(met(HUMS))).isZero();
  }
}
